// The separate faces in a map of how sure each pixel is of one.
#pragma once

#include <vector>

#include <opencv2/core.hpp>

#include "geometry2d.h"

namespace loafmark::analysis {

// CV_8U masks, 0 or 255, the largest first: what the map calls more likely than not, in one piece,
// its holes filled, without arms narrower than a third of `least_radius`, and holding a disc of
// that radius (map pixels).
[[nodiscard]] std::vector<cv::Mat> face_parts(const cv::Mat& face, double least_radius);

// The outline of one part, where the map passes one half between pixels; map pixels.
[[nodiscard]] Polyline part_outline(const cv::Mat& face, const cv::Mat& part);

}  // namespace loafmark::analysis
