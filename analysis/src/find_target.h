// Finds the printed target's markers in a photo.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include <opencv2/core.hpp>

#include "analysis/target_layout.h"

namespace loafmark::analysis {

struct SeenMarker {
    int id = 0;
    std::array<cv::Point2d, 4> corners;  // photo pixels, clockwise from the printed top-left
};

struct SeenTarget {
    TargetKind kind = TargetKind::strip;
    std::vector<SeenMarker> markers;  // at least one; each id once
    bool others_seen = false;  // markers of another target, or one id twice, lay in the photo
};

// The target with the most markers in the photo, or nothing. `grey` is CV_8UC1, upright.
[[nodiscard]] std::optional<SeenTarget> find_target(const cv::Mat& grey);

// The middle of each corner of marker `id` on paper, in the target's frame, in mm, clockwise from
// its top-left.
[[nodiscard]] std::array<cv::Point2d, 4> printed_corners(const TargetMarker& marker);

}  // namespace loafmark::analysis
