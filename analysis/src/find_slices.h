// Finds cut slices of bread in a photo, roughly: where they are and their outline to a few pixels.
//
// Crumb is the one thing in a kitchen photo that changes brightness in every direction at once, all
// over its face: cells. Wood grain, cloth folds and edges change in one direction only, and what is
// out of focus hardly changes. So the smaller eigenvalue of the structure tensor (Foerstner and
// Guelch 1987) marks crumb; what joins it and is unlike the ground is the slice, and where bread
// and ground resemble each other a graph cut decides.
#pragma once

#include <vector>

#include <opencv2/core.hpp>

namespace loafmark::analysis {

struct FoundSlice {
    std::vector<cv::Point2d> outline;  // closed, photo pixels
    bool cut_by_frame = false;         // the photo's edge cuts through the slice
};

struct SliceSearch {
    // Slices contain a disc of this radius; smaller finds are text, crumbs and knots in wood. In
    // photo pixels, 0 where no scale is known (then a thirtieth of the photo's long side).
    double least_radius_px = 0;
    // No slice is larger, in square photo pixels; 0 where no scale is known.
    double most_area_px2 = 0;
    // The mat on which slices lie, as its markers bound it: a convex polygon in photo pixels.
    // Empty: they may lie anywhere.
    std::vector<cv::Point> mat;
    // Places that are no bread: the target's markers and their quiet zones, photo pixels.
    std::vector<std::vector<cv::Point>> not_bread;
};

// Slices left to right, those of one column top to bottom. `rgb` is CV_8UC3, upright.
[[nodiscard]] std::vector<FoundSlice> find_slices(const cv::Mat& rgb, const SliceSearch& search);

}  // namespace loafmark::analysis
