#include "base_line.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <limits>
#include <numbers>
#include <vector>

#include "quantile.h"

namespace loafmark::analysis {
namespace {

cv::Point2d centre_of(const Polyline& outline) {
    cv::Point2d sum;
    for (const cv::Point2d& p : outline)
        sum += p;
    return sum / static_cast<double>(outline.size());
}

// Cosines: within 25 degrees of the photo's lower edge a base was laid so; 45 degrees make another
// side.
constexpr double laid_base_down = 0.906;
constexpr double another_side = 0.707;
constexpr double doubt = 0.1;  // drawn loaves of common forms: 1 in 40 is doubted for nothing

struct SideScore {
    double flatness = 0;   // share of the width that lies along one straight line on this side
    double asymmetry = 0;  // mean relative difference between left and right half
};

// Of the lowest points, one a column, how many lie along one level: within a band of 3 % of the
// height, no further up than 12 %, since corners of the base may reach below its middle.
int along_one_level(std::vector<double> lows, double height) {
    std::sort(lows.begin(), lows.end(), std::greater<>());  // down is up
    int most = 0;
    for (std::size_t first = 0, past = 0; first < lows.size(); ++first) {
        if (lows.front() - lows[first] > 0.09 * height) break;
        while (past < lows.size() && lows[first] - lows[past] < 0.03 * height)
            ++past;
        most = std::max(most, static_cast<int>(past - first));
    }
    return most;
}

// Looks at the outline with `down` at the bottom.
SideScore score_side(const Polyline& outline, cv::Point2d down) {
    const cv::Point2d across(-down.y, down.x);
    const cv::Point2d centre = centre_of(outline);
    double lowest = -std::numeric_limits<double>::infinity(), highest = -lowest;
    double left = highest, right = lowest;
    for (const cv::Point2d& p : outline) {
        const cv::Point2d d = p - centre;
        lowest = std::max(lowest, d.dot(down));
        highest = std::min(highest, d.dot(down));
        left = std::min(left, d.dot(across));
        right = std::max(right, d.dot(across));
    }
    constexpr int bins = 60;
    std::vector<double> lows(bins, -std::numeric_limits<double>::infinity());
    std::vector<double> half_left(bins, 0), half_right(bins, 0);  // reach at each height
    const double height = lowest - highest;
    const double middle = (left + right) / 2;
    for (const cv::Point2d& p : outline) {
        const cv::Point2d d = p - centre;
        const double x = d.dot(across);
        double& low = lows[static_cast<std::size_t>(
            std::clamp((x - left) / (right - left) * bins, 0.0, bins - 1.0))];
        low = std::max(low, d.dot(down));
        const auto row = static_cast<std::size_t>(
            std::clamp((d.dot(down) - highest) / height * bins, 0.0, bins - 1.0));
        double& half = x < middle ? half_left[row] : half_right[row];
        half = std::max(half, std::abs(x - middle));
    }
    SideScore score;
    score.flatness = static_cast<double>(along_one_level(std::move(lows), height)) / bins;
    for (int i = 0; i < bins; ++i)
        score.asymmetry += std::abs(half_left[static_cast<std::size_t>(i)] -
                                    half_right[static_cast<std::size_t>(i)]) /
                           (right - left) / bins;
    return score;
}

struct Line {
    double slope = 0, level = 0;
    [[nodiscard]] double above(const cv::Point2d& p) const { return level + slope * p.x - p.y; }
};

// Median of the slopes between all pairs of points (Sen 1968): a notch as wide as a quarter of the
// base does not tilt it.
Line line_of_medians(const std::vector<cv::Point2d>& points) {
    std::vector<double> values;
    for (std::size_t i = 0; i < points.size(); ++i)
        for (std::size_t j = i + 1; j < points.size(); ++j)
            if (points[j].x > points[i].x)
                values.push_back((points[j].y - points[i].y) / (points[j].x - points[i].x));
    Line line;
    if (points.empty()) return line;
    if (!values.empty()) line.slope = median_of(values);
    values.clear();
    for (const cv::Point2d& p : points)
        values.push_back(p.y - line.slope * p.x);
    line.level = median_of(values);
    return line;
}

struct LineFit {
    Line line;
    double scatter = 0;
};

// Least squares through the points that lie no more than `allowed` above `start`.
LineFit fit_below(const std::vector<cv::Point2d>& points, const Line& start, double allowed) {
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

BaseSide base_side(const Polyline& outline, cv::Point2d down) {
    // People lay the base towards themselves. Weights by 600 drawn outlines: of loaves as tall as
    // wide with four flat sides, 1 of 227 that lie so is then taken wrongly; lying turned, most
    // are.
    constexpr double asymmetry_weight = 6;
    constexpr double habit_weight = 0.1;
    constexpr int steps = 180;
    const Polyline even = resampled(outline, length_of(outline) / 400);
    const double start = std::atan2(down.y, down.x);
    std::array<cv::Point2d, steps> sides;
    std::array<double, steps> scores{};
    for (std::size_t i = 0; i < steps; ++i) {
        const double angle = start + (static_cast<double>(i) - 90) * 2 * std::numbers::pi / steps;
        sides[i] = {std::cos(angle), std::sin(angle)};
        const SideScore score = score_side(even, sides[i]);
        scores[i] =
            score.flatness - asymmetry_weight * score.asymmetry + habit_weight * sides[i].dot(down);
    }
    const auto best_of = [&](auto counts) {
        std::size_t best = steps;
        for (std::size_t i = 0; i < steps; ++i)
            if (counts(i) && (best == steps || scores[i] > scores[best])) best = i;
        return best;
    };
    const std::size_t best = best_of([](std::size_t) { return true; });
    BaseSide side{sides[best], {}};
    if (side.direction.dot(down) > laid_base_down) return side;
    const std::size_t rival =
        best_of([&](std::size_t i) { return sides[i].dot(side.direction) < another_side; });
    if (scores[best] - scores[rival] < doubt) side.rival = sides[rival];
    return side;
}

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
    const Line& line = fit.line;
    return {{left, line.level + line.slope * left},
            {right, line.level + line.slope * right},
            fit.scatter};
}

}  // namespace loafmark::analysis
