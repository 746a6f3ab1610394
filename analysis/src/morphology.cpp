#include "morphology.h"

#include <cmath>

#include <opencv2/imgproc.hpp>

namespace loafmark::analysis {
namespace {

// Distance of every pixel of the mask from the nearest pixel outside it.
cv::Mat depth_in(const cv::Mat& mask) {
    cv::Mat depth;
    cv::distanceTransform(mask, depth, cv::DIST_L2, cv::DIST_MASK_5);
    return depth;
}

cv::Mat bordered(const cv::Mat& mask, int width) {
    cv::Mat wide;
    cv::copyMakeBorder(mask, wide, width, width, width, width, cv::BORDER_CONSTANT, 0);
    return wide;
}

cv::Mat without_border(const cv::Mat& wide, int width) {
    return wide(cv::Rect(width, width, wide.cols - 2 * width, wide.rows - 2 * width)).clone();
}

}  // namespace

cv::Mat eroded(const cv::Mat& mask, double radius) {
    return without_border(depth_in(bordered(mask, 1)) > radius, 1);
}

cv::Mat dilated(const cv::Mat& mask, double radius) {
    return depth_in(mask == 0) <= radius;
}

cv::Mat opened(const cv::Mat& mask, double radius) {
    return dilated(eroded(mask, radius), radius);
}

cv::Mat closed(const cv::Mat& mask, double radius) {
    const int border = static_cast<int>(std::ceil(radius)) + 1;
    return without_border(eroded(dilated(bordered(mask, border), radius), radius), border);
}

}  // namespace loafmark::analysis
