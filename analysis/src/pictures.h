// Between OpenCV's matrices and the plain pictures of the public face.
#pragma once

#include <opencv2/core.hpp>

#include "analysis/picture.h"

namespace loafmark::analysis {

// `rgb`: CV_8UC3, R G B.
[[nodiscard]] Picture picture_of(const cv::Mat& rgb);

// `map`: CV_8U or CV_32S; values beyond 65535 do not fit and throw Error.
[[nodiscard]] LabelMap label_map_of(const cv::Mat& map);

}  // namespace loafmark::analysis
