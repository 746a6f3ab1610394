#include <algorithm>

#include <opencv2/imgproc.hpp>

#include "colour.h"

#include "cell_segmenter.h"

namespace loafmark::analysis {
namespace {

// All in working units (mm).
constexpr double grain = 0.12;        // smoothing against sensor noise; far below the smallest cell
constexpr double neighbourhood = 10;  // the crumb around a pixel: wider than most cells
// A pixel this many standard deviations darker than its neighbourhood is as likely open as not.
constexpr float even_odds = 0.4f;
// Standard deviations over which the odds change from one in four to four in one... (logistic).
constexpr float softness = 0.25f;
// Scatter of a smooth crumb in L*: below it, dark spots are noise.
constexpr float least_scatter = 3.0f;

// Mean over the face only: pixels outside it do not count, so the crumb's rim is compared with
// crumb.
cv::Mat mean_within(const cv::Mat& values, const cv::Mat& weight, cv::Size window) {
    cv::Mat sum, total;
    cv::blur(values.mul(weight), sum, window);
    cv::blur(weight, total, window);
    return sum / cv::max(total, 1e-3f);
}

}  // namespace

Openings LocalContrastSegmenter::segment(const FaceView& view) const {
    cv::Mat lightness = lightness_picture(view.rgb);
    cv::GaussianBlur(lightness, lightness, {}, grain / view.unit_per_pixel);

    cv::Mat weight;
    view.face.convertTo(weight, CV_32F);
    const int side = 2 * static_cast<int>(neighbourhood / view.unit_per_pixel) + 1;
    // Two passes of a box: close to a Gaussian window, at a cost that does not grow with its width.
    const cv::Size window(side, side);
    cv::Mat mean = mean_within(lightness, weight, window);
    cv::Mat deviation = lightness - mean;
    cv::Mat scatter = mean_within(deviation.mul(deviation), weight, window);
    cv::sqrt(scatter, scatter);
    const cv::Mat darkness = -deviation / cv::max(scatter, least_scatter);

    Openings openings;
    cv::Mat odds;
    cv::exp((even_odds - darkness) / softness, odds);
    openings.probability = weight / (1 + odds);
    const cv::Mat open = openings.probability > 0.5;
    cv::distanceTransform(open, openings.parting, cv::DIST_L2, 5);
    openings.rule = {0.75, 0.15 / view.unit_per_pixel};
    return openings;
}

// Wide enough for an assumed scale as well. Airy crumb is where it fails: its large, lit cells are
// missed.
KnownError LocalContrastSegmenter::known_error(PixelSize /*size*/) const {
    return {.openness_below = 0.15,
            .openness_above = 0.40,
            .band = 0.45,
            .cavity_share = 0.4,
            .density_least = 0.45,
            .density_most = 2.6,
            .diameter_least = 0.6,
            .diameter_most = 3.3,
            .path_least = 0.3,
            .path_most = 2.5,
            .axis_ratio_below = 0.5,
            .axis_ratio_above = 0.5,
            .strength = 0.3,
            .span_least = 0.4,
            .span_most = 2.5,
            .unevenness_least = 0.4,
            .unevenness_most = 2.5,
            .sphere_least = 0.4,
            .sphere_most = 3.5};
}

}  // namespace loafmark::analysis
