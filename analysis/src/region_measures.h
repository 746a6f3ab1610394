// Area, centroid, extent and second moments of every labelled region.
#pragma once

#include <vector>

#include <opencv2/core.hpp>

namespace loafmark::analysis {

struct Region {
    int pixels = 0;
    cv::Point2d centroid;  // pixels, the mean of its pixels' centres
    cv::Rect box;          // the least upright one that holds its pixels
    // Central second moments over the area, square pixels; a pixel's own 1/12 included.
    double xx = 0, yy = 0, xy = 0;
};

// Region k of `labels` (CV_32S, 0 = none) is at index k - 1; a number that no pixel bears has 0
// pixels.
[[nodiscard]] std::vector<Region> regions_of(const cv::Mat& labels);

// Diameter of the disc of equal area (area-equivalent diameter, ISO 9276-6).
[[nodiscard]] double equivalent_diameter(double area);

}  // namespace loafmark::analysis
