// A straight line through points of which some do not belong to it.
#pragma once

#include <vector>

#include <opencv2/core.hpp>

namespace loafmark::analysis {

struct MedianLine {
    double slope = 0, level = 0;
    [[nodiscard]] double above(const cv::Point2d& p) const { return level + slope * p.x - p.y; }
};

// Median of the slopes between all pairs of points (Sen 1968), and of the levels: a notch as wide
// as a quarter of the base does not tilt it. Level 0 without points, slope 0 with fewer than two.
[[nodiscard]] MedianLine line_of_medians(const std::vector<cv::Point2d>& points);

}  // namespace loafmark::analysis
