#include "contours.h"

#include <algorithm>

#include <opencv2/imgproc.hpp>

namespace loafmark::analysis {
namespace {

template <typename Points>
double solidity(const Points& points) {
    Points hull;
    cv::convexHull(points, hull);
    return cv::contourArea(points) / std::max(1.0, cv::contourArea(hull));
}

}  // namespace

std::vector<Contour> contours_of(const cv::Mat& mask) {
    std::vector<Contour> contours;
    cv::findContours(mask.clone(), contours, cv::RETR_EXTERNAL, cv::CHAIN_APPROX_NONE);
    return contours;
}

Contour largest_contour(const cv::Mat& mask) {
    const std::vector<Contour> contours = contours_of(mask);
    if (contours.empty()) return {};
    return *std::max_element(
        contours.begin(), contours.end(),
        [](const Contour& a, const Contour& b) { return cv::contourArea(a) < cv::contourArea(b); });
}

cv::Mat filled_contour(const Contour& contour, cv::Size size) {
    cv::Mat mask = cv::Mat::zeros(size, CV_8U);
    if (!contour.empty()) cv::fillPoly(mask, std::vector<Contour>{contour}, 255);
    return mask;
}

cv::Mat without_holes(const cv::Mat& mask) {
    cv::Mat whole = cv::Mat::zeros(mask.size(), CV_8U);
    cv::drawContours(whole, contours_of(mask), -1, 255, cv::FILLED);
    return whole;
}

cv::Mat hull_of(const cv::Mat& mask) {
    std::vector<cv::Point> points;
    cv::findNonZero(mask, points);
    Contour hull;
    if (!points.empty()) cv::convexHull(points, hull);
    return filled_contour(hull, mask.size());
}

double solidity_of(const Contour& contour) {
    return solidity(contour);
}

double solidity_of(const Polyline& outline) {
    return solidity(std::vector<cv::Point2f>(outline.begin(), outline.end()));
}

}  // namespace loafmark::analysis
