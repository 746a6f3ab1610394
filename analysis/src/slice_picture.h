// The slice as it stands in line-ups and reports.
#pragma once

#include <optional>

#include <opencv2/core.hpp>

#include "analysis/measure.h"
#include "contours.h"

namespace loafmark::analysis {

struct SlicePictureInput {
    const cv::Mat& rgb;       // rectified, CV_8UC3
    const Polyline& outline;  // frame pixels
    double base = 0;          // the base line's row
    double unit_per_pixel = 0.1;
    bool has_scale = false;
    bool whole = true;  // false: the frame cuts the slice, and it has no base line
    std::optional<cv::Vec3d> paper;
};

// The slice with a little around it, ending at its base line so that several stand on one line, at
// 0.25 mm a pixel; balanced on the target's paper where that was seen.
[[nodiscard]] SlicePicture slice_picture(const SlicePictureInput& input);

}  // namespace loafmark::analysis
