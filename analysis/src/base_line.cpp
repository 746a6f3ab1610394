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

// Set on 800 drawn outlines of tin, lidded and free-form loaves. Of those laid base down, 5 of 800
// are then taken wrongly (all nearly square); of those turned at random, 71, for 40 of which the
// doubt is told; of loaves of common forms none.
constexpr double asymmetry_weight = 6;
constexpr double corner_weight = 2;
constexpr double habit_weight = 0.1;  // people lay the base towards themselves
constexpr double doubt = 0.2;         // how far behind the second best may lie
constexpr double laid_so = 0.906;     // within 25 degrees of the photo's lower edge

constexpr std::size_t directions = 180;

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

// The best direction, and the best within 20 degrees of the three that are square to it.
std::array<std::size_t, 4> best_of_four(const std::array<double, directions>& scores) {
    constexpr std::size_t reach = 10;
    const auto first =
        static_cast<std::size_t>(std::max_element(scores.begin(), scores.end()) - scores.begin());
    std::array<std::size_t, 4> sides{};
    for (std::size_t k = 0; k < 4; ++k) {
        sides[k] = (first + k * directions / 4) % directions;
        for (std::size_t step = 0; step <= 2 * reach; ++step) {
            const std::size_t i =
                (first + k * directions / 4 + directions - reach + step) % directions;
            if (scores[i] > scores[sides[k]]) sides[k] = i;
        }
    }
    return sides;
}

// How far the outline stays away from the corner of each side and the next, over the loaf's size.
// A base has sharp corners, a crown round ones, even under a lid.
std::array<double, 4> corner_gaps(const Polyline& outline,
                                  const std::array<cv::Point2d, 4>& sides) {
    const double size = std::sqrt(area_inside(outline));
    std::array<double, 4> level{}, gaps{};
    for (std::size_t k = 0; k < 4; ++k) {
        level[k] = -std::numeric_limits<double>::infinity();
        for (const cv::Point2d& p : outline)
            level[k] = std::max(level[k], p.dot(sides[k]));
        level[k] -= 0.01 * size;  // a crust is uneven
    }
    for (std::size_t k = 0; k < 4; ++k) {
        const std::size_t next = (k + 1) % 4;
        const cv::Point2d u = sides[k], v = sides[next];
        const cv::Point2d corner =
            cv::Point2d(level[k] * v.y - level[next] * u.y, level[next] * u.x - level[k] * v.x) /
            u.cross(v);
        gaps[k] = std::numeric_limits<double>::infinity();
        for (const cv::Point2d& p : outline)
            gaps[k] = std::min(gaps[k], cv::norm(p - corner) / size);
    }
    return gaps;
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
    const Polyline even = resampled(outline, length_of(outline) / 400);
    const double start = std::atan2(down.y, down.x);
    std::array<cv::Point2d, directions> towards;
    std::array<double, directions> scores{};
    for (std::size_t i = 0; i < directions; ++i) {
        const double angle = start + static_cast<double>(i) * 2 * std::numbers::pi / directions;
        towards[i] = {std::cos(angle), std::sin(angle)};
        const SideScore score = score_side(even, towards[i]);
        scores[i] = score.flatness - asymmetry_weight * score.asymmetry +
                    habit_weight * towards[i].dot(down);
    }
    const std::array<std::size_t, 4> sides = best_of_four(scores);
    const std::array<double, 4> gaps = corner_gaps(
        even, {towards[sides[0]], towards[sides[1]], towards[sides[2]], towards[sides[3]]});
    std::array<double, 4> totals{};
    for (std::size_t k = 0; k < 4; ++k) {
        const double own = gaps[k] + gaps[(k + 3) % 4];
        const double opposite = gaps[(k + 1) % 4] + gaps[(k + 2) % 4];
        totals[k] = scores[sides[k]] + corner_weight * (opposite - own);
    }
    std::array<std::size_t, 4> order{0, 1, 2, 3};
    std::sort(order.begin(), order.end(),
              [&](std::size_t a, std::size_t b) { return totals[a] > totals[b]; });
    BaseSide side{towards[sides[order[0]]], {}};
    const bool laid_base_down = side.direction.dot(down) > laid_so;
    if (!laid_base_down && totals[order[0]] - totals[order[1]] < doubt)
        side.rival = towards[sides[order[1]]];
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
