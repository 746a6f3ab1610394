// Places a rough outline where the cut face really ends, to a fraction of a millimetre.
#pragma once

#include <optional>

#include <opencv2/core.hpp>

#include "geometry2d.h"

namespace loafmark::analysis {

// A loaf that goes on behind its cut, which a camera beside it sees: where the outline faces the
// camera's foot, a strip of side lies outside it, `share` of the way to the foot wide, or wider.
struct SideBehind {
    cv::Point2d foot;  // frame pixels
    double share = 0;
};

struct RefinedOutline {
    Polyline outline;        // frame pixels, points 0.5 units apart
    double uncertainty = 0;  // standard error of the edge's place, in working units
    // Where other weights of the same evidence place it: how sure the edge is, seen from within.
    std::vector<Polyline> alternatives;
};

// Along each ray square to the rough outline, the pixels further out are compared with the
// background just outside that place; the edge is where "background outside, something else inside"
// fits best, found for all rays together (dynamic programming, so that the edge stays continuous
// and one crumb on the table moves nothing). `rgb` is the rectified CV_8UC3 picture, `outline` in
// its pixels; `bread`, CV_32F of its size, how sure a pixel is of bread, 0 to 1, counts beside
// colour; empty where nothing is known. Where the outline leaves the face over `behind`, `bread`
// alone counts.
[[nodiscard]] RefinedOutline refine_outline(const cv::Mat& rgb, const Polyline& outline,
                                            double unit_per_pixel, const cv::Mat& bread = {},
                                            const std::optional<SideBehind>& behind = {});

}  // namespace loafmark::analysis
