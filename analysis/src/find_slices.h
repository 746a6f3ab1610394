// Finds cut slices of bread in a photo: where they are and their outline to about a pixel of a
// small picture. A network looks at the whole photo first, then near each slice that it saw.
#pragma once

#include <vector>

#include <opencv2/core.hpp>

#include "geometry2d.h"

namespace loafmark::analysis {

struct FoundSlice {
    Polyline outline;           // closed, photo pixels
    bool cut_by_frame = false;  // the photo's edge cuts through the slice
    cv::Mat face;               // CV_32F, 0 to 1, how sure of its cut face, in the nearer look...
    cv::Matx33d photo_from_face = cv::Matx33d::eye();  // ...whose pixels lie there
};

struct SliceSearch {
    // Slices contain a disc of this radius; smaller finds are text, crumbs and knots in wood. In
    // photo pixels, 0 where no scale is known (then a thirtieth of the photo's long side).
    double least_radius_px = 0;
    // No slice is larger, in square photo pixels; 0 where no scale is known.
    double most_area_px2 = 0;
    // Places that are no bread: the target's markers and their quiet zones, photo pixels.
    std::vector<std::vector<cv::Point>> not_bread;
};

// Slices left to right, those of one column top to bottom. `rgb` is CV_8UC3, upright. Throws
// cv::Exception where this OpenCV cannot read the network.
[[nodiscard]] std::vector<FoundSlice> find_slices(const cv::Mat& rgb, const SliceSearch& search);

}  // namespace loafmark::analysis
