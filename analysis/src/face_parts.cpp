#include "face_parts.h"

#include <algorithm>

#include <opencv2/imgproc.hpp>

#include "contours.h"
#include "morphology.h"

namespace loafmark::analysis {
namespace {

constexpr double sure_enough = 0.5;
constexpr double arm_share = 1.0 / 3;
constexpr int finer = 4;  // the outline is traced at this many times the map's resolution

// 0 or 255, as if the picture went on beyond its border: a part that the border cuts keeps its
// corners.
cv::Mat opened_to_the_border(const cv::Mat& mask, double radius) {
    const int beyond = static_cast<int>(radius) + 2;
    cv::Mat wide;
    cv::copyMakeBorder(mask, wide, beyond, beyond, beyond, beyond, cv::BORDER_REPLICATE);
    return opened(wide, radius)(cv::Rect(beyond, beyond, mask.cols, mask.rows)).clone();
}

}  // namespace

std::vector<cv::Mat> face_parts(const cv::Mat& face, double least_radius) {
    const cv::Mat likely = opened_to_the_border(face > sure_enough, arm_share * least_radius);
    std::vector<cv::Mat> parts;
    for (const Contour& contour : contours_of(likely)) {
        cv::Mat part = filled_contour(contour, face.size());
        cv::Mat wide, depth;
        const int beyond = static_cast<int>(least_radius) + 2;
        cv::copyMakeBorder(part, wide, beyond, beyond, beyond, beyond, cv::BORDER_REPLICATE);
        cv::distanceTransform(wide, depth, cv::DIST_L2, cv::DIST_MASK_5);
        double deepest = 0;
        cv::minMaxLoc(depth, nullptr, &deepest);
        if (deepest >= least_radius) parts.push_back(part);
    }
    std::sort(parts.begin(), parts.end(), [](const cv::Mat& a, const cv::Mat& b) {
        return cv::countNonZero(a) > cv::countNonZero(b);
    });
    return parts;
}

Polyline part_outline(const cv::Mat& face, const cv::Mat& part) {
    // The map inside the part and a little around it, its holes closed.
    cv::Mat own = cv::Mat::zeros(face.size(), CV_32F);
    face.copyTo(own, dilated(part, 2));
    const cv::Mat inner = eroded(part, 2);
    own.setTo(1, inner);
    cv::Mat fine;
    cv::resize(own, fine, {}, finer, finer, cv::INTER_CUBIC);
    Polyline outline;
    for (const cv::Point& p : largest_contour(fine > sure_enough))
        outline.push_back((cv::Point2d(p) + cv::Point2d(0.5, 0.5)) / finer - cv::Point2d(0.5, 0.5));
    return outline;
}

}  // namespace loafmark::analysis
