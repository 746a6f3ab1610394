// Which side of a slice it baked on, and the straight line through it.
#pragma once

#include <optional>

#include <opencv2/core.hpp>

#include "geometry2d.h"

namespace loafmark::analysis {

// Unit vectors in the outline's own coordinates, from the middle of the loaf to a side of it.
struct BaseSide {
    cv::Point2d direction;             // where the base lies
    std::optional<cv::Point2d> rival;  // where it may lie as well; none: no doubt
};

// A base is flat and its corners are sharper than the crown's, and a loaf is alike left and right
// of its middle; where that leaves a choice, as with a square tin loaf, the side nearest `down`
// (the photo's lower edge) is the base. There is doubt where another side does nearly as well and
// no side lies along the photo's lower edge, so that the baker's own laying does not tell.
[[nodiscard]] BaseSide base_side(const Polyline& outline, cv::Point2d down);

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
