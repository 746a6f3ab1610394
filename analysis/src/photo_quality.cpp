#include "photo_quality.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <sstream>
#include <string>

#include <opencv2/imgproc.hpp>

#include "colour.h"
#include "photo_limits.h"
#include "quantile.h"

namespace loafmark::analysis {
namespace {

std::string rounded(double value, int decimals) {
    std::ostringstream text;
    text.setf(std::ios::fixed);
    text.precision(decimals);
    text << value;
    return text.str();
}

// Linear light at places of a marker's own square: (-0.5, -0.5) is its top-left corner. Places
// outside the photo are left out.
class MarkerLight {
  public:
    MarkerLight(const SeenMarker& marker, const cv::Mat& rgb) : rgb_(rgb) {
        const std::array<cv::Point2f, 4> square{
            {{-0.5F, -0.5F}, {0.5F, -0.5F}, {0.5F, 0.5F}, {-0.5F, 0.5F}}};
        std::array<cv::Point2f, 4> corners;
        std::copy(marker.corners.begin(), marker.corners.end(), corners.begin());
        photo_from_marker_ = cv::getPerspectiveTransform(square.data(), corners.data());
    }

    // Along a square ring of that half side.
    [[nodiscard]] std::vector<double> ring(double half) const {
        constexpr int places_a_side = 16;
        std::vector<double> light;
        for (int i = 0; i < places_a_side; ++i) {
            const double t = half * (2.0 * i / places_a_side - 1);
            for (const cv::Point2d p : {cv::Point2d(t, -half), cv::Point2d(half, t),
                                        cv::Point2d(-t, half), cv::Point2d(-half, -t)}) {
                const cv::Point2d q = mapped(photo_from_marker_, p);
                const cv::Point at(cvRound(q.x), cvRound(q.y));
                if (!cv::Rect({0, 0}, rgb_.size()).contains(at)) continue;
                const auto pixel = rgb_.at<cv::Vec3b>(at);
                double sum = 0;
                for (int k = 0; k < 3; ++k)
                    sum += linear_light(pixel[k] / 255.0);
                light.push_back(sum / 3);
            }
        }
        return light;
    }

  private:
    const cv::Mat& rgb_;
    cv::Matx33d photo_from_marker_;
};

// The border module's middle is ink all round, the quiet zone's paper; the field begins no nearer
// than one module.
constexpr double ink_ring = 0.5 - 0.5 / marker_modules;
constexpr double paper_ring = 0.5 + 0.45 / marker_modules;

// Brightness along a ray across a marker's side, ink to paper.
std::optional<double> spread_along(const cv::Mat& grey, cv::Point2d foot, cv::Point2d out,
                                   double reach) {
    constexpr double step = 0.125;
    const int columns = 2 * static_cast<int>(reach / step) + 1;
    cv::Mat map(1, columns, CV_32FC2), profile;
    for (int c = 0; c < columns; ++c)
        map.at<cv::Point2f>(0, c) = foot + (c * step - reach) * out;
    cv::remap(grey, profile, map, cv::noArray(), cv::INTER_LINEAR, cv::BORDER_REPLICATE);
    // A wide blur brings the pattern's white and the field's blue in from the ray's ends.
    const std::vector<double> values(profile.begin<uchar>(), profile.end<uchar>());
    const auto middle = values.begin() + columns / 2;
    const double ink = quantile_of(std::vector<double>(values.begin(), middle), 0.05);
    const double paper = quantile_of(std::vector<double>(middle, values.end()), 0.95);
    constexpr double least_contrast = 30;
    if (paper - ink < least_contrast) return std::nullopt;
    // From the edge's middle inwards to ink, outwards to paper.
    int last_ink = columns / 2, first_paper = columns / 2;
    while (last_ink > 0 && values[static_cast<std::size_t>(last_ink)] > ink + 0.1 * (paper - ink))
        --last_ink;
    while (first_paper < columns - 1 &&
           values[static_cast<std::size_t>(first_paper)] < ink + 0.9 * (paper - ink))
        ++first_paper;
    return (first_paper - last_ink) * step;
}

// All rays across one side.
void add_spreads(const cv::Mat& grey, cv::Point2d a, cv::Point2d b, std::vector<double>& spreads) {
    constexpr int rays = 9;
    const cv::Point2d out = cv::Point2d(b.y - a.y, a.x - b.x) / cv::norm(b - a);
    const double reach = 0.9 * cv::norm(b - a) / marker_modules;
    for (int r = 0; r < rays; ++r)
        if (const auto spread =
                spread_along(grey, a + (0.2 + 0.6 * r / (rays - 1)) * (b - a), out, reach))
            spreads.push_back(*spread);
}

Warning warning(WarningCode code, std::string message, std::vector<Measure> concerns = {}) {
    return {code, std::move(message), std::move(concerns), {}};
}

}  // namespace

std::vector<Warning> light_on(const SeenTarget& target, const cv::Mat& rgb) {
    std::vector<double> papers;
    double most_ink = 0;
    for (const SeenMarker& marker : target.markers) {
        const MarkerLight light(marker, rgb);
        std::vector<double> paper = light.ring(paper_ring), ink = light.ring(ink_ring);
        if (paper.empty() || ink.empty()) continue;
        papers.push_back(median_of(paper));
        // Glare is a patch: part of a marker is enough.
        most_ink = std::max(most_ink, quantile_of(ink, 0.9) / std::max(papers.back(), 1e-3));
    }
    std::vector<Warning> warnings;
    if (papers.empty()) return warnings;
    if (most_ink > limits::most_ink_over_paper)
        warnings.push_back(warning(WarningCode::glare,
                                   "the target's black ink shines: the lamp is mirrored there"));
    const auto [dark, bright] = std::minmax_element(papers.begin(), papers.end());
    if (*bright / std::max(*dark, 1e-3) > limits::most_light_ratio)
        warnings.push_back(
            warning(WarningCode::uneven_light, "one side of the target has " +
                                                   rounded(*bright / std::max(*dark, 1e-3), 1) +
                                                   " times the light of the other"));
    return warnings;
}

std::vector<Warning> why_no_target(const cv::Mat& grey) {
    if (!seen_mirrored(grey)) return {};
    return {warning(WarningCode::target_mirrored,
                    "a target is seen mirrored, and no scale is taken from it")};
}

std::optional<double> edge_spread_px(const SeenTarget& target, const cv::Mat& grey) {
    std::array<std::vector<double>, 2> spreads;  // of both pairs of sides
    for (const SeenMarker& marker : target.markers)
        for (std::size_t i = 0; i < 4; ++i)
            add_spreads(grey, marker.corners[i], marker.corners[(i + 1) % 4], spreads[i % 2]);
    std::optional<double> most;
    for (std::vector<double>& one : spreads)
        if (!one.empty()) most = std::max(most.value_or(0), median_of(one));
    return most;
}

SliceQuality quality_of(const SliceView& slice) {
    SliceQuality quality;
    const cv::Mat inside = filled(slice.outline, slice.rgb.size());
    std::vector<double> brightness;
    std::size_t clipped = 0;
    for (int y = 0; y < inside.rows; ++y)
        for (int x = 0; x < inside.cols; ++x) {
            if (!inside.at<uchar>(y, x)) continue;
            const auto& p = slice.rgb.at<cv::Vec3b>(y, x);
            brightness.push_back(std::max({p[0], p[1], p[2]}));
            clipped += std::min({p[0], p[1], p[2]}) >= limits::clipped_value;
        }
    if (brightness.empty()) return quality;
    const double share = static_cast<double>(clipped) / static_cast<double>(brightness.size());
    if (share > limits::most_clipped_share)
        quality.warnings.push_back(
            warning(WarningCode::overexposed,
                    rounded(100 * share, 0) + " % of the slice is white without detail",
                    {Measure::openness}));
    if (quantile_of(brightness, 0.95) < limits::least_bright_value)
        quality.warnings.push_back(warning(WarningCode::underexposed,
                                           "the slice is near black: noise may pass for cells",
                                           {Measure::openness}));
    if (!slice.edge_spread) return quality;
    const double spread = *slice.edge_spread / slice.resolved_limit;
    if (spread <= limits::most_spread) return quality;
    quality.crumb_hopeless = spread > limits::hopeless_spread;
    quality.warnings.push_back(
        warning(WarningCode::blurred,
                "edges are " + rounded(*slice.edge_spread, 1) + " mm wide in this photo" +
                    (quality.crumb_hopeless ? ": nothing can be said of its cells"
                                            : ", more than the smallest cells"),
                {Measure::openness, Measure::coarseness, Measure::cell_count}));
    return quality;
}

}  // namespace loafmark::analysis
