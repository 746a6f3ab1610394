#include "side_looks.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <numbers>
#include <vector>

#include "median_line.h"
#include "quantile.h"

namespace loafmark::analysis {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr std::size_t directions = 180;
constexpr std::size_t bins = 60;
// So many that every column and row of a slice four times as wide as high meets some.
constexpr double samples = 1600;

cv::Point2d centre_of(const Polyline& outline) {
    cv::Point2d sum;
    for (const cv::Point2d& p : outline)
        sum += p;
    return sum / static_cast<double>(outline.size());
}

// The outline seen with one side at the bottom, in columns across and rows from that side up.
struct Seen {
    double height = 0, width = 0;
    std::vector<double> lows = std::vector<double>(bins, -infinity);  // down is up
    std::vector<double> left = std::vector<double>(bins, 0);          // reach at each height
    std::vector<double> right = std::vector<double>(bins, 0);
};

std::size_t bin_at(double share) {
    return static_cast<std::size_t>(std::clamp(share * bins, 0.0, bins - 1.0));
}

Seen seen_from(const Polyline& outline, cv::Point2d centre, cv::Point2d down) {
    const cv::Point2d across(-down.y, down.x);
    double lowest = -infinity, highest = infinity, left = infinity, right = -infinity;
    for (const cv::Point2d& p : outline) {
        const cv::Point2d d = p - centre;
        lowest = std::max(lowest, d.dot(down));
        highest = std::min(highest, d.dot(down));
        left = std::min(left, d.dot(across));
        right = std::max(right, d.dot(across));
    }
    Seen seen;
    seen.height = lowest - highest;
    seen.width = right - left;
    const double middle = (left + right) / 2;
    for (const cv::Point2d& p : outline) {
        const cv::Point2d d = p - centre;
        const double x = d.dot(across);
        double& low = seen.lows[bin_at((x - left) / seen.width)];
        low = std::max(low, d.dot(down));
        const std::size_t row = bin_at((lowest - d.dot(down)) / seen.height);
        double& half = x < middle ? seen.left[row] : seen.right[row];
        half = std::max(half, std::abs(x - middle));
    }
    return seen;
}

// Of the lowest points, one a column, what share lies along one level: within a band of 3 % of the
// height, no further up than 12 %, since corners of the base may reach below its middle.
double along_one_level(std::vector<double> lows, double height) {
    std::sort(lows.begin(), lows.end(), std::greater<>());
    std::size_t most = 0;
    for (std::size_t first = 0, past = 0; first < lows.size(); ++first) {
        if (lows.front() - lows[first] > 0.09 * height) break;
        while (past < lows.size() && lows[first] - lows[past] < 0.03 * height)
            ++past;
        most = std::max(most, past - first);
    }
    return static_cast<double>(most) / static_cast<double>(lows.size());
}

double asymmetry_of(const Seen& seen) {
    double sum = 0;
    for (std::size_t i = 0; i < bins; ++i)
        sum += std::abs(seen.left[i] - seen.right[i]);
    return sum / seen.width / bins;
}

// Mean width over the rows between two shares of the height.
double width_between(const Seen& seen, double from, double to) {
    double sum = 0;
    int rows = 0;
    for (std::size_t i = bin_at(from); i < bin_at(to); ++i, ++rows)
        sum += seen.left[i] + seen.right[i];
    return sum / rows;
}

// Points of the side itself, without its corners.
std::vector<cv::Point2d> side_points(const Seen& seen) {
    std::vector<cv::Point2d> points;
    for (std::size_t i = bin_at(0.15); i < bin_at(0.85); ++i)
        if (std::isfinite(seen.lows[i]))
            points.emplace_back((static_cast<double>(i) + 0.5) / bins * seen.width, seen.lows[i]);
    return points;
}

double unevenness_of(const std::vector<cv::Point2d>& points) {
    const MedianLine line = line_of_medians(points);
    std::vector<double> distances;
    for (const cv::Point2d& p : points)
        distances.push_back(std::abs(line.above(p)));
    return distances.empty() ? 0 : quantile_of(distances, 0.7);
}

// How much a direction looks like a base's, to find where the four sides lie.
double score_of(const Seen& seen) {
    constexpr double asymmetry_weight = 6;
    return along_one_level(seen.lows, seen.height) - asymmetry_weight * asymmetry_of(seen);
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

// How far the outline stays away from the corner of each side and the next.
std::array<double, 4> corner_gaps(const Polyline& outline, double size,
                                  const std::array<SideLooks, 4>& sides) {
    std::array<double, 4> level{}, gaps{};
    for (std::size_t k = 0; k < 4; ++k) {
        level[k] = -infinity;
        for (const cv::Point2d& p : outline)
            level[k] = std::max(level[k], p.dot(sides[k].direction));
        level[k] -= 0.01 * size;  // a crust is uneven
    }
    for (std::size_t k = 0; k < 4; ++k) {
        const std::size_t next = (k + 1) % 4;
        const cv::Point2d u = sides[k].direction, v = sides[next].direction;
        const cv::Point2d corner =
            cv::Point2d(level[k] * v.y - level[next] * u.y, level[next] * u.x - level[k] * v.x) /
            u.cross(v);
        gaps[k] = infinity;
        for (const cv::Point2d& p : outline)
            gaps[k] = std::min(gaps[k], cv::norm(p - corner) / size);
    }
    return gaps;
}

SideLooks looks_of(const Seen& seen, cv::Point2d direction, double size) {
    SideLooks looks;
    looks.direction = direction;
    looks.asymmetry = asymmetry_of(seen);
    looks.unevenness = unevenness_of(side_points(seen)) / size;
    looks.narrowing = (width_between(seen, 0.7, 0.85) - width_between(seen, 0.15, 0.3)) / size;
    return looks;
}

}  // namespace

std::array<SideLooks, 4> looks_of_sides(const Polyline& outline) {
    const Polyline even = resampled(outline, length_of(outline) / samples);
    const cv::Point2d centre = centre_of(even);
    const double size = std::sqrt(area_inside(even));
    const auto towards = [](std::size_t i) {
        const double angle = static_cast<double>(i) * 2 * std::numbers::pi / directions;
        return cv::Point2d(std::cos(angle), std::sin(angle));
    };
    std::array<double, directions> scores{};
    for (std::size_t i = 0; i < directions; ++i)
        scores[i] = score_of(seen_from(even, centre, towards(i)));
    const std::array<std::size_t, 4> sides = best_of_four(scores);
    std::array<SideLooks, 4> looks;
    for (std::size_t k = 0; k < 4; ++k)
        looks[k] = looks_of(seen_from(even, centre, towards(sides[k])), towards(sides[k]), size);
    const std::array<double, 4> gaps = corner_gaps(even, size, looks);
    for (std::size_t k = 0; k < 4; ++k)
        looks[k].corners = gaps[k] + gaps[(k + 3) % 4];
    return looks;
}

}  // namespace loafmark::analysis
