// How good a photo is, judged against what the measures need (photo_limits.h).
#pragma once

#include <optional>
#include <vector>

#include <opencv2/core.hpp>

#include "analysis/reading.h"
#include "find_target.h"
#include "geometry2d.h"

namespace loafmark::analysis {

// Light on the target's paper and ink: glare, and light that is uneven from marker to marker.
// `rgb` is CV_8UC3, upright.
[[nodiscard]] std::vector<Warning> light_on(const SeenTarget& target, const cv::Mat& rgb);

// Whether the target is there but mirrored. `grey` is CV_8UC1.
[[nodiscard]] std::vector<Warning> why_no_target(const cv::Mat& grey);

// Pixels from 10 to 90 % of the step between the markers' ink and paper, in the direction in which
// it takes longest (a shaken phone blurs one way); nothing where no side is seen well enough. A
// perfect step between pixels of a bilinear reading takes 0.8 to 1.6.
[[nodiscard]] std::optional<double> edge_spread_px(const SeenTarget& target, const cv::Mat& grey);

// A slice in its rectified frame.
struct SliceView {
    const cv::Mat& rgb;       // CV_8UC3
    const Polyline& outline;  // frame pixels
    double resolved_limit;    // working units
    double unit_per_pixel;
    // Of the markers' edges, in working units; nothing without a target.
    std::optional<double> edge_spread;
};

struct SliceQuality {
    std::vector<Warning> warnings;
    bool crumb_hopeless = false;  // too blurred for any measure of cells
};
[[nodiscard]] SliceQuality quality_of(const SliceView& slice);

}  // namespace loafmark::analysis
