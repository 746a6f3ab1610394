// From sRGB pixels to linear light and CIELAB.
#pragma once

#include <opencv2/core.hpp>

namespace loafmark::analysis {

// The sRGB curve (IEC 61966-2-1) and its inverse, both 0 to 1.
[[nodiscard]] double linear_light(double srgb);
[[nodiscard]] double srgb_of(double linear);

// CIELAB of one 8-bit sRGB colour, D65 (IEC 61966-2-1 with its four-decimal matrix; CIE 15). L* 0
// to 100. Exact in double.
[[nodiscard]] cv::Vec3d lab_of(const cv::Vec3b& rgb);

// L*, a*, b* of every pixel: CV_32FC3 from CV_8UC3 (R G B). Within 0.05 of lab_of(). OpenCV's own
// conversion first fills tables in software arithmetic, which costs more than a whole slice.
[[nodiscard]] cv::Mat lab_picture(const cv::Mat& rgb);

// L* alone, CV_32F.
[[nodiscard]] cv::Mat lightness_picture(const cv::Mat& rgb);

}  // namespace loafmark::analysis
