#include "base_line.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "median_line.h"

namespace loafmark::analysis {
namespace {

struct LineFit {
    MedianLine line;
    double scatter = 0;
};

// Least squares through the points that lie no more than `allowed` above `start`.
LineFit fit_below(const std::vector<cv::Point2d>& points, const MedianLine& start, double allowed) {
    double n = 0, sx = 0, sy = 0, sxx = 0, sxy = 0;
    for (const cv::Point2d& p : points) {
        if (start.above(p) > allowed) continue;
        n += 1, sx += p.x, sy += p.y, sxx += p.x * p.x, sxy += p.x * p.y;
    }
    LineFit fit{start, 0};
    if (n >= 2 && n * sxx - sx * sx > 0) {
        fit.line.slope = (n * sxy - sx * sy) / (n * sxx - sx * sx);
        fit.line.level = (sy - fit.line.slope * sx) / n;
    }
    double squares = 0;
    for (const cv::Point2d& p : points)
        if (start.above(p) <= allowed) squares += std::pow(fit.line.above(p), 2);
    fit.scatter = n > 0 ? std::sqrt(squares / n) : 0;
    return fit;
}

}  // namespace

BaseLine base_line(const Polyline& given, double tolerance) {
    // Denser than the columns below, so that every column holds points of the lower side.
    const Polyline outline = resampled(given, length_of(given) / 4000);
    const auto [leftmost, rightmost] =
        std::minmax_element(outline.begin(), outline.end(),
                            [](const cv::Point2d& a, const cv::Point2d& b) { return a.x < b.x; });
    const double left = leftmost->x, right = rightmost->x;
    constexpr double outside_share = 0.2;  // each side, leaving the middle 60 %
    const double from = left + outside_share * (right - left);
    const double to = right - outside_share * (right - left);
    const double step = std::max((to - from) / 200, 1e-9);

    std::vector<cv::Point2d> lowest(200, {0, -std::numeric_limits<double>::infinity()});
    for (const cv::Point2d& p : outline) {
        if (p.x < from || p.x >= to) continue;
        cv::Point2d& low =
            lowest[std::min<std::size_t>(199, static_cast<std::size_t>((p.x - from) / step))];
        if (p.y > low.y) low = p;
    }
    std::erase_if(lowest, [](const cv::Point2d& p) { return !std::isfinite(p.y); });

    LineFit fit{line_of_medians(lowest), 0};
    for (int round = 0; round < 3; ++round)
        fit = fit_below(lowest, fit.line, std::max(tolerance, 2 * fit.scatter));
    const MedianLine& line = fit.line;
    return {{left, line.level + line.slope * left},
            {right, line.level + line.slope * right},
            fit.scatter};
}

}  // namespace loafmark::analysis
