#include "face_network.h"

#include <algorithm>
#include <cmath>

#include <opencv2/imgproc.hpp>

#include "shrunk.h"

namespace loafmark::analysis {
namespace {

constexpr int coarsest = 64;  // pixels: the network halves six times
constexpr double least_scatter = 0.05;

int padded(int side) {
    return (side + coarsest - 1) / coarsest * coarsest;
}

// Each channel less its mean over the picture, all over the scatter of brightness.
cv::Mat normalised(const cv::Mat& rgb) {
    cv::Mat x;
    rgb.convertTo(x, CV_32FC3, 1.0 / 255);
    x -= cv::mean(x);
    cv::Mat brightness;
    cv::transform(x, brightness, cv::Matx13f(1 / 3.0f, 1 / 3.0f, 1 / 3.0f));
    const double scatter = std::sqrt(cv::mean(brightness.mul(brightness))[0]);
    return x * (1 / (scatter + least_scatter));
}

}  // namespace

cv::Mat FaceNetwork::logits_of(const cv::Mat& rgb) const {
    // In the middle of a picture whose sides the network can halve, as in training.
    const int right = padded(rgb.cols) - rgb.cols, below = padded(rgb.rows) - rgb.rows;
    cv::Mat input;
    cv::copyMakeBorder(normalised(rgb), input, below / 2, below - below / 2, right / 2,
                       right - right / 2, cv::BORDER_CONSTANT, cv::Scalar::all(0));
    net_.setInput(cv::dnn::blobFromImage(input));
    cv::Mat logits = net_.forward();  // 1 x 1 x rows x columns
    const cv::Mat whole(input.size(), CV_32F, logits.ptr<float>(0, 0));
    return whole(cv::Rect(right / 2, below / 2, rgb.cols, rgb.rows)).clone();
}

cv::Mat FaceNetwork::faces_in(const cv::Mat& rgb, const std::vector<int>& sides) const {
    // No look is so sure that the others cannot speak.
    constexpr double surest = 7.6;
    cv::Mat sum = cv::Mat::zeros(rgb.size(), CV_32F);
    for (const int side : sides) {
        const double shrink = static_cast<double>(side) / std::max(rgb.cols, rgb.rows);
        cv::Mat small, logits;
        if (shrink < 1)
            small = shrunk(rgb, shrink);
        else
            cv::resize(rgb, small, {}, shrink, shrink, cv::INTER_LINEAR);
        cv::resize(logits_of(small), logits, rgb.size(), 0, 0, cv::INTER_LINEAR);
        sum += cv::min(cv::max(logits, -surest), surest);
    }
    cv::Mat face;
    cv::exp(-sum / static_cast<double>(sides.size()), face);
    return 1 / (1 + face);
}

}  // namespace loafmark::analysis
