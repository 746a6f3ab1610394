// The target's own paper as the photo's white.
#pragma once

#include <optional>

#include <opencv2/core.hpp>

#include "find_target.h"

namespace loafmark::analysis {

// Median linear light (R, G, B; 1 = full scale) of the white round the markers. None where the
// paper is over-exposed, so that its colour is lost.
[[nodiscard]] std::optional<cv::Vec3d> paper_white(const cv::Mat& rgb, const SeenTarget& target);

// One channel's sRGB value, 0 to 255, as it is where white paper is white and reflects what copier
// paper does; `paper` is that channel of paper_white().
[[nodiscard]] double balanced_on(double value, double paper);
// The same of a whole picture, CV_8UC3 (R G B).
[[nodiscard]] cv::Mat balanced_on(const cv::Mat& rgb, const cv::Vec3d& paper);

}  // namespace loafmark::analysis
