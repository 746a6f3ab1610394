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
    bool others_seen = false;  // markers that do not belong to this one sheet lay in the photo
};

// The mean side of its markers, in photo pixels.
[[nodiscard]] double marker_side_px(const SeenTarget& target);

// The target with the most markers in the photo, or nothing. Of markers that one flat sheet cannot
// bear (two mats, a marker cut out and turned) the largest set that it can is taken. `grey` is
// CV_8UC1, upright.
[[nodiscard]] std::optional<SeenTarget> find_target(const cv::Mat& grey);

// Whether a target would be found in the photo's mirror image: for a photo in which none is found.
[[nodiscard]] bool seen_mirrored(const cv::Mat& grey);

// The middle of each corner of marker `id` on paper, in the target's frame, in mm, clockwise from
// its top-left.
[[nodiscard]] std::array<cv::Point2d, 4> printed_corners(const TargetMarker& marker);

}  // namespace loafmark::analysis
