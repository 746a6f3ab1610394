#include "graph_cut.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include <opencv2/imgproc.hpp>

namespace loafmark::analysis {
namespace {

// In core sizes (square roots of area): no crust, dense rim included, is thicker.
constexpr double thickest_crust = 0.2;

// Three channels: lightness, warmth (bread is never blue), texture.
cv::Mat cut_picture(const cv::Mat& lab, const cv::Mat& texture) {
    std::vector<cv::Mat> planes;
    cv::split(lab, planes);
    const cv::Mat warmth = (planes[1] + planes[2]) * 1.5 + 100;
    cv::Mat picture;
    cv::merge(std::vector<cv::Mat>{planes[0] * 2.0, warmth, texture * 40}, picture);
    picture.convertTo(picture, CV_8U);
    return picture;
}

// The looks of the surroundings: clusters of the pixels in a ring well outside the core.
struct Surroundings {
    cv::Mat centres;  // one row a cluster; CV_32F, the cut picture's three channels
};

Surroundings surroundings_of(const cv::Mat& picture, const cv::Mat& ring) {
    constexpr int clusters = 5;
    std::vector<cv::Vec3f> samples;
    const int stride = std::max(1, cv::countNonZero(ring) / 3000);
    int seen = 0;
    for (int y = 0; y < ring.rows; ++y)
        for (int x = 0; x < ring.cols; ++x)
            if (ring.at<uchar>(y, x) && seen++ % stride == 0)
                samples.emplace_back(picture.at<cv::Vec3b>(y, x));
    if (samples.size() < 10 * clusters) return {};
    const cv::Mat data(static_cast<int>(samples.size()), 3, CV_32F, samples.data());
    cv::Mat labels;
    Surroundings around;
    cv::theRNG().state = 20260301;  // equal photos, equal clusters
    cv::kmeans(data, clusters, labels, {cv::TermCriteria::COUNT, 10, 0}, 1, cv::KMEANS_PP_CENTERS,
               around.centres);
    return around;
}

// Pixels that look like none of the surroundings. A shadow keeps its ground's warmth, so lightness
// counts for less; texture is blurred across edges and does not count.
cv::Mat unlike(const Surroundings& around, const cv::Mat& picture) {
    constexpr float lightness_sigma = 30, warmth_sigma = 12;  // of the cut picture's channels
    constexpr float limit = 4;
    cv::Mat result(picture.size(), CV_8U, cv::Scalar(around.centres.empty() ? 0 : 255));
    for (int y = 0; y < picture.rows; ++y)
        for (int x = 0; x < picture.cols; ++x)
            for (int k = 0; k < around.centres.rows; ++k) {
                const cv::Vec3b& v = picture.at<cv::Vec3b>(y, x);
                const float* centre = around.centres.ptr<float>(k);
                const float l = (static_cast<float>(v[0]) - centre[0]) / lightness_sigma;
                const float w = (static_cast<float>(v[1]) - centre[1]) / warmth_sigma;
                if (l * l + w * w < limit) {
                    result.at<uchar>(y, x) = 0;
                    break;
                }
            }
    return result;
}

// What is known beforehand: bread within the core, not bread far from it, at the photo's border and
// on other slices; near the core, what looks like none of the surroundings is bread at first guess,
// the rest is not; the cut decides.
cv::Mat beforehand(const cv::Mat& picture, const cv::Mat& core, const cv::Mat& hull,
                   const cv::Mat& excluded, bool whole) {
    const double size = std::sqrt(cv::countNonZero(core));
    cv::Mat inside, outside;
    cv::distanceTransform(core, inside, cv::DIST_L2, 5);
    cv::distanceTransform(hull == 0, outside, cv::DIST_L2, 5);
    const cv::Mat ring = (outside > thickest_crust * size) & (excluded == 0);
    const cv::Mat stranger = unlike(surroundings_of(picture, ring), picture);
    cv::Mat labels(core.size(), CV_8U, cv::Scalar(cv::GC_BGD));
    labels.setTo(cv::GC_PR_BGD, outside < thickest_crust * size);
    labels.setTo(cv::GC_PR_FGD, stranger & (outside < thickest_crust * size));
    labels.setTo(cv::GC_PR_FGD, core);
    labels.setTo(cv::GC_FGD, inside > 0.05 * size);
    labels.setTo(cv::GC_BGD, excluded);
    if (whole) cv::rectangle(labels, {0, 0}, {core.cols - 1, core.rows - 1}, cv::GC_BGD, 2);
    return labels;
}

}  // namespace

cv::Mat graph_cut(const cv::Mat& lab, const cv::Mat& texture, const cv::Mat& core,
                  const cv::Mat& hull, const cv::Mat& excluded, bool whole) {
    const cv::Mat picture = cut_picture(lab, texture);
    cv::Mat labels = beforehand(picture, core, hull, excluded, whole);
    if (cv::countNonZero(labels == cv::GC_FGD) == 0) return {};
    if (cv::countNonZero((labels == cv::GC_BGD) | (labels == cv::GC_PR_BGD)) > 0) {
        cv::Mat background, foreground;
        cv::grabCut(picture, labels, {}, background, foreground, 2, cv::GC_INIT_WITH_MASK);
    }
    return (labels == cv::GC_FGD) | (labels == cv::GC_PR_FGD);
}

}  // namespace loafmark::analysis
