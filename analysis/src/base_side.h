// Which side of a slice it baked on.
#pragma once

#include <vector>

#include <opencv2/core.hpp>

#include "geometry2d.h"

namespace loafmark::analysis {

// Unit vectors in the outline's own coordinates, of any unit, from the middle of the loaf to a side
// of it.
struct BaseSide {
    cv::Point2d direction;            // where the base lies
    std::vector<cv::Point2d> rivals;  // where it may lie as well, likeliest first; none: no doubt
};

// A base is even and its corners are sharper than the crown's, and a loaf is alike left and right
// of its middle; people lay it towards `down` (the photo's lower edge). There is doubt where these
// together leave less than 85 % for the likeliest side; then as many more are named as make 95 %.
// An outline without area tells nothing: `down`.
[[nodiscard]] BaseSide base_side(const Polyline& outline, cv::Point2d down);

}  // namespace loafmark::analysis
