#include "geometry2d.h"

#include <algorithm>
#include <cmath>

#include <opencv2/imgproc.hpp>

namespace loafmark::analysis {
namespace {

double signed_area(const Polyline& line) {
    double twice = 0;
    for (std::size_t i = 0; i < line.size(); ++i)
        twice += line[i].cross(line[(i + 1) % line.size()]);
    return twice / 2;
}

}  // namespace

cv::Point2d mapped(const cv::Matx33d& b_from_a, cv::Point2d p) {
    const cv::Vec3d v = b_from_a * cv::Vec3d(p.x, p.y, 1);
    return {v[0] / v[2], v[1] / v[2]};
}

Polyline mapped(const cv::Matx33d& b_from_a, const Polyline& line) {
    Polyline result(line.size());
    std::transform(line.begin(), line.end(), result.begin(),
                   [&](const cv::Point2d& p) { return mapped(b_from_a, p); });
    return result;
}

cv::Point2d turned_down(cv::Point2d p, cv::Point2d down) {
    return {p.x * down.y - p.y * down.x, p.dot(down)};
}

Polyline turned_down(const Polyline& line, cv::Point2d down) {
    Polyline turned;
    turned.reserve(line.size());
    for (const cv::Point2d& p : line)
        turned.push_back(turned_down(p, down));
    return turned;
}

double area_inside(const Polyline& closed) {
    return std::abs(signed_area(closed));
}

double length_of(const Polyline& closed) {
    double length = 0;
    for (std::size_t i = 0; i < closed.size(); ++i)
        length += cv::norm(closed[(i + 1) % closed.size()] - closed[i]);
    return length;
}

Polyline resampled(const Polyline& closed, double step) {
    const double length = length_of(closed);
    const auto n = static_cast<std::size_t>(std::max(3.0, std::round(length / step)));
    Polyline result;
    result.reserve(n);
    std::size_t segment = 0;
    double before = 0;  // length up to the start of `segment`
    for (std::size_t k = 0; k < n; ++k) {
        const double at = length * static_cast<double>(k) / static_cast<double>(n);
        double here = cv::norm(closed[(segment + 1) % closed.size()] - closed[segment]);
        while (before + here < at && segment + 1 < closed.size()) {
            before += here;
            ++segment;
            here = cv::norm(closed[(segment + 1) % closed.size()] - closed[segment]);
        }
        const double t = here > 0 ? std::min(1.0, (at - before) / here) : 0;
        result.push_back(closed[segment] +
                         t * (closed[(segment + 1) % closed.size()] - closed[segment]));
    }
    return result;
}

Polyline smoothed(const Polyline& closed, double sigma) {
    const int reach = static_cast<int>(std::ceil(3 * sigma));
    std::vector<double> weights;
    double total = 0;
    for (int k = -reach; k <= reach; ++k) {
        weights.push_back(std::exp(-0.5 * k * k / (sigma * sigma)));
        total += weights.back();
    }
    const int n = static_cast<int>(closed.size());
    Polyline result(closed.size());
    for (int i = 0; i < n; ++i)
        for (int k = -reach; k <= reach; ++k) {
            const int at = ((i + k) % n + n) % n;
            result[static_cast<std::size_t>(i)] += weights[static_cast<std::size_t>(k + reach)] /
                                                   total * closed[static_cast<std::size_t>(at)];
        }
    return result;
}

Polyline outward_normals(const Polyline& closed) {
    const double side = signed_area(closed) >= 0 ? 1 : -1;
    const std::size_t n = closed.size();
    Polyline normals(n);
    for (std::size_t i = 0; i < n; ++i) {
        const cv::Point2d along = closed[(i + 1) % n] - closed[(i + n - 1) % n];
        const double length = std::max(cv::norm(along), 1e-9);
        normals[i] = cv::Point2d(along.y, -along.x) * (side / length);
    }
    return normals;
}

cv::Mat filled(const Polyline& closed, cv::Size size) {
    constexpr int shift = 6;  // sub-pixel corners
    std::vector<cv::Point> corners;
    corners.reserve(closed.size());
    for (const cv::Point2d& p : closed)
        corners.emplace_back(static_cast<int>(std::lround(p.x * (1 << shift))),
                             static_cast<int>(std::lround(p.y * (1 << shift))));
    cv::Mat mask = cv::Mat::zeros(size, CV_8U);
    cv::fillPoly(mask, std::vector<std::vector<cv::Point>>{corners}, 1, cv::LINE_8, shift);
    return mask;
}

}  // namespace loafmark::analysis
