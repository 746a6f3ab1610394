// Outer contours of masks, and how solid they are.
#pragma once

#include <vector>

#include <opencv2/core.hpp>

#include "geometry2d.h"

namespace loafmark::analysis {

using Contour = std::vector<cv::Point>;

// Of `mask`, CV_8U, nonzero = set; every pixel of each.
[[nodiscard]] std::vector<Contour> contours_of(const cv::Mat& mask);

// The one that holds the largest area; empty where the mask is.
[[nodiscard]] Contour largest_contour(const cv::Mat& mask);

// CV_8U, 255 inside the contour.
[[nodiscard]] cv::Mat filled_contour(const Contour& contour, cv::Size size);

// The mask with what its outer contours enclose.
[[nodiscard]] cv::Mat without_holes(const cv::Mat& mask);

// CV_8U, 255 in the convex hull of all that is set.
[[nodiscard]] cv::Mat hull_of(const cv::Mat& mask);

// Area over that of the convex hull: 1 for what is convex.
[[nodiscard]] double solidity_of(const Contour& contour);
[[nodiscard]] double solidity_of(const Polyline& outline);

}  // namespace loafmark::analysis
