// Opening and closing of masks by discs, through the distance transform: a disc of any size costs
// the same.
#pragma once

#include <opencv2/core.hpp>

namespace loafmark::analysis {

// `mask`: CV_8U, nonzero = set; results are 0 and 255. `radius` in pixels. Outside the picture
// counts as unset.
[[nodiscard]] cv::Mat eroded(const cv::Mat& mask, double radius);
[[nodiscard]] cv::Mat dilated(const cv::Mat& mask, double radius);

// What a disc of `radius` inside the mask can reach; what is narrower goes.
[[nodiscard]] cv::Mat opened(const cv::Mat& mask, double radius);

// The mask with gaps narrower than the disc filled.
[[nodiscard]] cv::Mat closed(const cv::Mat& mask, double radius);

}  // namespace loafmark::analysis
