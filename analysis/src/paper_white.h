// The target's own paper as the photo's white.
#pragma once

#include <optional>

#include <opencv2/core.hpp>

#include "find_target.h"

namespace loafmark::analysis {

// Median linear light (R, G, B; 1 = full scale) of the white round the markers. None where the
// paper is over-exposed, so that its colour is lost.
[[nodiscard]] std::optional<cv::Vec3d> paper_white(const cv::Mat& rgb, const SeenTarget& target);

}  // namespace loafmark::analysis
