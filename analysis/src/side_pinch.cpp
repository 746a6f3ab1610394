#include "side_pinch.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include <opencv2/imgproc.hpp>

namespace loafmark::analysis {
namespace {

constexpr double shoulder = 0.15;  // of the half-width
constexpr int bands = 200;         // heights at which a side's place is read

// Outermost distance from the loaf's middle at each height; negative where the band holds no point.
std::vector<double> side_profile(const Polyline& outline, cv::Point2d foot, cv::Point2d outward,
                                 cv::Point2d up, double height) {
    std::vector<double> reach(bands, -1);
    for (const cv::Point2d& p : outline) {
        const double h = (p - foot).dot(up), x = (p - foot).dot(outward);
        if (x < 0 || h < 0 || h > height) continue;
        double& r =
            reach[std::min<std::size_t>(bands - 1, static_cast<std::size_t>(h / height * bands))];
        r = std::max(r, x);
    }
    return reach;
}

double deepest_dent(const std::vector<double>& reach, double height) {
    const double widest = *std::max_element(reach.begin(), reach.end());
    std::vector<cv::Point2f> side;
    for (std::size_t i = 0, last = 0; i < reach.size(); ++i) {
        if (reach[i] < 0) continue;
        side.emplace_back(static_cast<float>(reach[i]),
                          static_cast<float>((static_cast<double>(i) + 0.5) * height / bands));
        if (reach[i] >= (1 - shoulder) * widest) last = side.size();
        if (i + 1 == reach.size()) side.resize(last);
    }
    if (side.size() < 3) return 0;
    // The hull's outer chain, from base to shoulder; dents are measured square to its edges.
    std::vector<cv::Point2f> closed = side;
    closed.emplace_back(0.f, side.back().y);
    closed.emplace_back(0.f, side.front().y);
    std::vector<cv::Point2f> hull;
    cv::convexHull(closed, hull);
    double deepest = 0;
    for (const cv::Point2f& p : side)
        deepest = std::max(deepest, cv::pointPolygonTest(hull, p, true));
    return deepest;
}

}  // namespace

double side_pinch(const Polyline& given, const BaseLine& base) {
    const Polyline outline = resampled(given, length_of(given) / 4000);
    const cv::Point2d along = (base.right - base.left) / cv::norm(base.right - base.left);
    const cv::Point2d up(along.y, -along.x);
    double left = 0, right = 0, height = 0;
    for (const cv::Point2d& p : outline) {
        left = std::min(left, (p - base.left).dot(along));
        right = std::max(right, (p - base.left).dot(along));
        height = std::max(height, (p - base.left).dot(up));
    }
    if (height <= 0) return 0;
    const cv::Point2d foot = base.left + (left + right) / 2 * along;
    return std::max(deepest_dent(side_profile(outline, foot, along, up, height), height),
                    deepest_dent(side_profile(outline, foot, -along, up, height), height));
}

}  // namespace loafmark::analysis
