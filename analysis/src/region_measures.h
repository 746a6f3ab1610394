// Area and centroid of every labelled region.
#pragma once

#include <vector>

#include <opencv2/core.hpp>

namespace loafmark::analysis {

struct Region {
    int pixels = 0;
    cv::Point2d centroid;  // pixels, the mean of its pixels' centres
};

// Region k of `labels` (CV_32S, 0 = none) is at index k - 1; a number that no pixel bears has 0
// pixels.
[[nodiscard]] std::vector<Region> regions_of(const cv::Mat& labels);

// Diameter of the disc of equal area (area-equivalent diameter, ISO 9276-6).
[[nodiscard]] double equivalent_diameter(double area);

}  // namespace loafmark::analysis
