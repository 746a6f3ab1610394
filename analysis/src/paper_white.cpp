#include "paper_white.h"

#include <algorithm>
#include <vector>

#include "colour.h"
#include "quantile.h"

namespace loafmark::analysis {
namespace {

// Round each marker lies white paper, one module (a sixth of its side) wide or more; samples are
// taken in its middle. 1 is the marker's own corner, seen from its centre.
constexpr double from_centre = 1.17;
constexpr int samples_a_side = 40;
constexpr double clipped = 250;
// White copier paper reflects about this share of light in each channel; common practice, no
// source.
constexpr double paper_reflectance = 0.86;

}  // namespace

std::optional<cv::Vec3d> paper_white(const cv::Mat& rgb, const SeenTarget& target) {
    std::vector<double> channel[3];
    for (const SeenMarker& marker : target.markers) {
        cv::Point2d middle;
        for (const cv::Point2d& p : marker.corners)
            middle += p / 4;
        for (std::size_t side = 0; side < 4; ++side)
            for (int i = 0; i < samples_a_side; ++i) {
                const double t = static_cast<double>(i) / samples_a_side;
                const cv::Point2d edge =
                    (1 - t) * marker.corners[side] + t * marker.corners[(side + 1) % 4];
                const cv::Point p = middle + from_centre * (edge - middle);
                if (!cv::Rect({0, 0}, rgb.size()).contains(p)) continue;
                for (int k = 0; k < 3; ++k)
                    channel[k].push_back(rgb.at<cv::Vec3b>(p)[k]);
            }
    }
    if (channel[0].empty()) return std::nullopt;
    cv::Vec3d white;
    for (int k = 0; k < 3; ++k) {
        const double middle = median_of(channel[k]);
        if (middle >= clipped) return std::nullopt;
        white[k] = linear_light(middle / 255);
    }
    return white;
}

double balanced_on(double value, double paper) {
    return 255 * srgb_of(linear_light(value / 255) * paper_reflectance / std::max(paper, 1e-3));
}

cv::Mat balanced_on(const cv::Mat& rgb, const cv::Vec3d& paper) {
    cv::Mat curve(1, 256, CV_8UC3);
    for (int value = 0; value < 256; ++value)
        for (int k = 0; k < 3; ++k)
            curve.at<cv::Vec3b>(value)[k] = cv::saturate_cast<uchar>(balanced_on(value, paper[k]));
    cv::Mat balanced;
    cv::LUT(rgb, curve, balanced);
    return balanced;
}

}  // namespace loafmark::analysis
