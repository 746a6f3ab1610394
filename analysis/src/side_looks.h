// How the four sides of an outline look, by which one may tell the side it baked on.
#pragma once

#include <array>

#include <opencv2/core.hpp>

#include "geometry2d.h"

namespace loafmark::analysis {

// Lengths are shares of the square root of the outline's area, so that a loaf's size does not tell.
struct SideLooks {
    cv::Point2d direction;  // unit vector from the loaf's middle to this side
    double asymmetry = 0;   // mean difference between left and right half, over the width
    double corners = 0;     // how far the outline stays away from this side's two corners, summed
    double unevenness = 0;  // 0.7 quantile of the distances from this side's own straight line
    double narrowing = 0;   // width near the opposite side less the width near this one
};

// The outline has an area, and is in any unit. The sides of one that is flat and about which the
// loaf is alike left and right, and of the three about square to it, each turned to where it looks
// most like a base itself; going round the loaf.
[[nodiscard]] std::array<SideLooks, 4> looks_of_sides(const Polyline& outline);

}  // namespace loafmark::analysis
