// What the search for slices looks at: colour, and texture that changes in every direction.
#pragma once

#include <opencv2/core.hpp>

namespace loafmark::analysis {

struct SliceFeatures {
    cv::Mat lab;      // CV_32FC3, CIELAB
    cv::Mat rgb;      // CV_8UC3
    cv::Mat texture;  // CV_32F, L* a pixel; 0 where the colour is none that bread has
};

// Of a reduced photo, CV_8UC3.
[[nodiscard]] SliceFeatures slice_features(const cv::Mat& rgb);

}  // namespace loafmark::analysis
