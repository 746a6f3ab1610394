#include "crust.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "colour.h"
#include "paper_white.h"
#include "quantile.h"

namespace loafmark::analysis {
namespace {

// The outline belongs to the base where it lies less than this above the base line, in working
// units, and runs along it to within 45 degrees.
constexpr double base_reach = 3;
const double base_slope = std::sqrt(0.5);
// Standard error of the depth's mean: a soft edge between crust and crumb, and crust that differs
// along the slice. Set from development phantoms.
constexpr double top_sigma = 0.29, base_sigma = 0.4;
// The shadow under a standing loaf darkens crust and crumb alike towards the table: on 28
// development photos its base's crust came out 0.4 mm too thin in the median, two much more than
// this allows.
constexpr double standing_base_sigma = 0.9;
constexpr double depth_share = 0.1;
// Standard errors of colour: light that differs between paper and slice, and without paper the
// camera's own white balance and exposure.
constexpr double calibrated_lightness = 3, calibrated_hue = 2;
constexpr double camera_lightness = 10, camera_hue = 6;

struct Mean {
    double sum = 0;
    int n = 0;
    [[nodiscard]] double value() const { return sum / n; }
};

// Median colour of the pixels, each channel for itself; one in nine is enough.
std::optional<cv::Vec3d> median_colour(const cv::Mat& rgb, const cv::Mat& mask) {
    constexpr int step = 3;
    constexpr std::size_t least = 50;
    std::vector<double> channel[3];
    for (int y = 0; y < rgb.rows; y += step)
        for (int x = 0; x < rgb.cols; x += step)
            if (mask.at<uchar>(y, x))
                for (int k = 0; k < 3; ++k)
                    channel[k].push_back(rgb.at<cv::Vec3b>(y, x)[k]);
    if (channel[0].size() < least) return std::nullopt;
    return cv::Vec3d(median_of(channel[0]), median_of(channel[1]), median_of(channel[2]));
}

cv::Vec3d balanced_lab(const cv::Vec3d& rgb, const std::optional<cv::Vec3d>& paper) {
    cv::Vec3b balanced;
    for (int k = 0; k < 3; ++k)
        balanced[k] = cv::saturate_cast<uchar>(paper ? balanced_on(rgb[k], (*paper)[k]) : rgb[k]);
    return lab_of(balanced);
}

void put(MeasureValues& values, Measure lightness, const cv::Vec3d& lab, bool calibrated) {
    const double sigma_l = calibrated ? calibrated_lightness : camera_lightness;
    const double sigma_ab = calibrated ? calibrated_hue : camera_hue;
    for (int k = 0; k < 3; ++k) {
        const double half = z95 * (k == 0 ? sigma_l : sigma_ab);
        values[static_cast<Measure>(static_cast<int>(lightness) + k)] =
            Estimate{lab[k], lab[k] - half, lab[k] + half, {}, {}};
    }
}

}  // namespace

MeasureValues crust_thickness(const Crumb& crumb, const BaseLine& base, double unit_per_pixel,
                              double length_error, Stance stance) {
    const cv::Point2d along = (base.right - base.left) / cv::norm(base.right - base.left);
    const cv::Point2d up(along.y, -along.x);
    const Polyline normals = outward_normals(smoothed(crumb.rim, 2));
    Mean top, bottom;
    for (std::size_t i = 0; i < crumb.rim.size(); ++i) {
        const double above = (crumb.rim[i] - base.left).dot(up) * unit_per_pixel;
        const bool at_base = above < base_reach && -normals[i].dot(up) > base_slope;
        Mean& mean = at_base ? bottom : top;
        mean.sum += crumb.crust_depth[i];
        mean.n += 1;
    }
    MeasureValues values;
    const auto put_mean = [&](Measure measure, const Mean& mean, double sigma) {
        if (mean.n == 0) return;
        const double depth = mean.value();
        const double half = z95 * std::hypot(sigma, depth_share * depth, length_error * depth);
        values[measure] = Estimate{depth, std::max(0.0, depth - half), depth + half, {}, {}};
    };
    put_mean(Measure::crust_thickness_top, top, top_sigma);
    put_mean(Measure::crust_thickness_base, bottom,
             stance == Stance::standing ? standing_base_sigma : base_sigma);
    return values;
}

MeasureValues bread_colours(const ColourPicture& picture) {
    MeasureValues values;
    const cv::Mat crust = (picture.face > 0) & (picture.crumb == 0) & (picture.open == 0);
    const cv::Mat solid_crumb = (picture.crumb > 0) & (picture.open == 0);
    if (const auto colour = median_colour(picture.rgb, crust))
        put(values, Measure::crust_colour_l, balanced_lab(*colour, picture.paper),
            picture.paper.has_value());
    if (const auto colour = median_colour(picture.rgb, solid_crumb))
        put(values, Measure::crumb_colour_l, balanced_lab(*colour, picture.paper),
            picture.paper.has_value());
    return values;
}

}  // namespace loafmark::analysis
