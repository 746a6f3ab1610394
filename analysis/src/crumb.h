// Where crust ends and crumb begins.
#pragma once

#include <vector>

#include <opencv2/core.hpp>

#include "geometry2d.h"

namespace loafmark::analysis {

struct Crumb {
    cv::Mat mask;     // CV_8U, 1 in the crumb
    double area = 0;  // square working units
    // Along the outline: points of it in frame pixels, and the crust's depth there in working
    // units.
    Polyline rim;
    std::vector<double> crust_depth;
    bool crust_seen = false;  // else the depths are 0
};

// The crust ends where L*, over 10 mm along the outline and on solid parts only, has gone half-way
// from the crust's own value to that of the crumb beside it. `outline` in frame pixels.
[[nodiscard]] Crumb find_crumb(const cv::Mat& rgb, const Polyline& outline, double unit_per_pixel);

}  // namespace loafmark::analysis
