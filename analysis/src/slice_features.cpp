#include "slice_features.h"

#include <algorithm>
#include <vector>

#include <opencv2/imgproc.hpp>

#include "colour.h"
#include "morphology.h"

namespace loafmark::analysis {
namespace {

// A gradient counts at most this much (L* a pixel), lest one strong edge pass for texture.
constexpr float gradient_ceiling = 6;
// CIELAB that no bread has, whatever the white balance: red, green and blue of cloth and paper.
// Crumb lies at a* -2 to 15, b* 5 to 35; dark cells are near grey.
constexpr float most_red = 27, most_green = -10, most_blue = -12;

cv::Mat isotropic_texture(const cv::Mat& lightness, double sigma) {
    cv::Mat gx, gy, magnitude;
    cv::Sobel(lightness, gx, CV_32F, 1, 0, 3, 1.0 / 8);
    cv::Sobel(lightness, gy, CV_32F, 0, 1, 3, 1.0 / 8);
    cv::magnitude(gx, gy, magnitude);
    const cv::Mat limit = cv::max(magnitude / gradient_ceiling, 1.0f);
    cv::divide(gx, limit, gx);
    cv::divide(gy, limit, gy);
    cv::Mat xx = gx.mul(gx), yy = gy.mul(gy), xy = gx.mul(gy);
    for (cv::Mat* m : {&xx, &yy, &xy})
        cv::GaussianBlur(*m, *m, {}, sigma);
    const cv::Mat half_difference = (xx - yy) / 2;
    cv::Mat root;
    cv::sqrt(half_difference.mul(half_difference) + xy.mul(xy), root);
    cv::Mat smaller = cv::max((xx + yy) / 2 - root, 0.0f);
    cv::sqrt(smaller, smaller);
    return smaller;
}

cv::Mat no_colour_of_bread(const cv::Mat& lab) {
    cv::Mat result(lab.size(), CV_8U);
    for (int y = 0; y < lab.rows; ++y)
        for (int x = 0; x < lab.cols; ++x) {
            const cv::Vec3f& v = lab.at<cv::Vec3f>(y, x);
            result.at<uchar>(y, x) =
                v[1] > most_red || v[1] < most_green || v[2] < most_blue ? 255 : 0;
        }
    return opened(result, 1);
}

}  // namespace

SliceFeatures slice_features(const cv::Mat& rgb) {
    SliceFeatures features;
    features.lab = lab_picture(rgb);
    cv::Mat lightness;
    cv::extractChannel(features.lab, lightness, 0);
    const double sigma = std::max(rgb.cols, rgb.rows) / 120.0;
    features.texture = isotropic_texture(lightness, sigma);
    features.rgb = rgb;
    features.texture.setTo(0, dilated(no_colour_of_bread(features.lab), sigma));
    return features;
}

}  // namespace loafmark::analysis
