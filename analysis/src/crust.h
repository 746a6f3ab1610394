// What is told of the crust: how thick it is, and its colour beside the crumb's.
#pragma once

#include <optional>

#include <opencv2/core.hpp>

#include "analysis/measures.h"
#include "base_line.h"
#include "crumb.h"

namespace loafmark::analysis {

// A standing loaf's base lies in the shadow where loaf and table meet, and reads less surely.
enum class Stance { lying, standing };

// Mean depth of the crust at top and sides, and at the base: where the outline runs along the base
// line. `crumb` with lengths in working units, `base` in frame pixels. `length_error` is the
// relative standard error of the scale.
[[nodiscard]] MeasureValues crust_thickness(const Crumb& crumb, const BaseLine& base,
                                            double unit_per_pixel, double length_error,
                                            Stance stance);

struct ColourPicture {
    cv::Mat rgb;    // CV_8UC3, the rectified slice
    cv::Mat face;   // CV_8U, nonzero inside the outline
    cv::Mat crumb;  // CV_8U, nonzero in the crumb
    cv::Mat open;   // CV_8U, nonzero in cells
    // Linear light (R, G, B; 1 = full scale) that the target's paper sends; none without a target.
    std::optional<cv::Vec3d> paper;
};

// Median CIELAB (D65) of the crust, and of the crumb's solid parts, after white balance on the
// target's paper; without one as the camera gave it, with wider intervals.
[[nodiscard]] MeasureValues bread_colours(const ColourPicture& picture);

}  // namespace loafmark::analysis
