// Where crust ends and crumb begins.
#pragma once

#include <opencv2/core.hpp>

#include "geometry2d.h"

namespace loafmark::analysis {

struct Crumb {
    cv::Mat mask;     // CV_8U, 1 in the crumb
    double area = 0;  // square working units
};

// The crust ends where L*, averaged along the outline over 10 mm and taken on solid parts only, has
// gone half-way from its value 0.3 mm inside the outline to the crumb's median. `open` (CV_8U,
// nonzero = open) keeps cells out of that average. `outline` in frame pixels.
[[nodiscard]] Crumb find_crumb(const cv::Mat& rgb, const Polyline& outline, const cv::Mat& open,
                               double unit_per_pixel);

}  // namespace loafmark::analysis
