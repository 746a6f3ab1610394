// The straight line through the side that a slice baked on.
#pragma once

#include <opencv2/core.hpp>

#include "geometry2d.h"

namespace loafmark::analysis {

struct BaseLine {
    cv::Point2d left;  // ends beneath the outline's leftmost and rightmost point
    cv::Point2d right;
    double scatter = 0;  // standard deviation of the outline about the line, in outline units
};

// Least-squares line through the lowest outline points over the middle 60 % of the width, in a
// frame whose y runs down towards the base (spec of base line: docs/measurement.md). Points further
// than `tolerance` above the line, such as a cell open to the base, are left out.
[[nodiscard]] BaseLine base_line(const Polyline& outline, double tolerance);

}  // namespace loafmark::analysis
