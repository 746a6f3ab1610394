#include "statistics/lines.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>

#include "statistics/least_squares.h"

namespace loafmark::statistics {
namespace {

// Differences of x below this share of its size are rounding, not two places.
constexpr double rounding = 1e-9;

void check(const std::vector<std::vector<Point>>& groups) {
    for (const std::vector<Point>& group : groups) {
        if (group.empty()) throw std::invalid_argument("fit_parallel_lines: a group has no points");
        for (const Point& p : group)
            if (!std::isfinite(p.x) || !std::isfinite(p.y))
                throw std::invalid_argument("fit_parallel_lines: a point is not finite");
    }
}

bool has_two_x(const std::vector<Point>& group) {
    const auto [low, high] = std::ranges::minmax(group, {}, &Point::x);
    return high.x - low.x > rounding * std::max(std::abs(low.x), std::abs(high.x));
}

Point mean_of(const std::vector<Point>& group) {
    Point sum;
    for (const Point& p : group)
        sum = {sum.x + p.x, sum.y + p.y};
    const auto n = static_cast<double>(group.size());
    return {sum.x / n, sum.y / n};
}

// x and y less their group's means, one row a point: with the means taken out, the slope is a
// regression through the origin, and each group's mean costs a degree of freedom.
struct Centred {
    std::vector<double> x;
    std::vector<double> y;
};

Centred centred(const std::vector<std::vector<Point>>& groups, const std::vector<Point>& means) {
    Centred result;
    for (std::size_t g = 0; g < groups.size(); ++g)
        for (const Point& p : groups[g]) {
            result.x.push_back(p.x - means[g].x);
            result.y.push_back(p.y - means[g].y);
        }
    return result;
}

Coefficient with_error(double value, std::optional<double> error, int degrees_of_freedom) {
    Coefficient result{value, error, std::nullopt};
    if (error && degrees_of_freedom >= least_degrees_for_interval) {
        const double half = t_critical(degrees_of_freedom) * *error;
        result.interval = Interval{value - half, value + half};
    }
    return result;
}

// Of the fitted mean of `group` at x.
std::optional<double> error_at(const ParallelLines& lines, std::size_t group, double x) {
    if (!lines.residual_sd || !lines.slope.standard_error) return std::nullopt;
    const double of_mean =
        *lines.residual_sd / std::sqrt(static_cast<double>(lines.group_sizes[group]));
    return std::hypot(of_mean, (x - lines.group_means[group].x) * *lines.slope.standard_error);
}

double height_at(const ParallelLines& lines, std::size_t group, double x) {
    const Point& mean = lines.group_means[group];
    return mean.y + lines.slope.value * (x - mean.x);
}

}  // namespace

std::vector<FittedPoint> ParallelLines::trace(std::size_t group, double low, double high,
                                              int count) const {
    if (group >= group_means.size()) throw std::invalid_argument("trace: no such group");
    if (count < 2) throw std::invalid_argument("trace: at least two places are wanted");
    std::vector<FittedPoint> line;
    for (int i = 0; i < count; ++i) {
        const double x = std::lerp(low, high, static_cast<double>(i) / (count - 1));
        const Coefficient mean =
            with_error(height_at(*this, group, x), error_at(*this, group, x), degrees_of_freedom);
        line.push_back({x, mean.value, mean.interval});
    }
    return line;
}

std::optional<ParallelLines> fit_parallel_lines(const std::vector<std::vector<Point>>& groups) {
    check(groups);
    if (std::ranges::none_of(groups, has_two_x)) return std::nullopt;

    ParallelLines lines;
    for (const std::vector<Point>& group : groups) {
        lines.group_means.push_back(mean_of(group));
        lines.group_sizes.push_back(group.size());
    }
    const Centred points = centred(groups, lines.group_means);
    const std::optional<LeastSquaresFit> fit = least_squares({points.x}, points.y);
    if (!fit) return std::nullopt;

    lines.degrees_of_freedom = static_cast<int>(points.x.size() - groups.size()) - 1;
    std::optional<double> slope_error;
    if (lines.degrees_of_freedom > 0) {
        lines.residual_sd = std::sqrt(fit->residual_sum_of_squares / lines.degrees_of_freedom);
        slope_error = *lines.residual_sd * std::sqrt(fit->unscaled_covariance[0]);
    }
    lines.slope = with_error(fit->coefficients[0].value, slope_error, lines.degrees_of_freedom);
    for (std::size_t g = 0; g < groups.size(); ++g)
        lines.intercepts.push_back(
            with_error(height_at(lines, g, 0), error_at(lines, g, 0), lines.degrees_of_freedom));
    return lines;
}

std::optional<ParallelLines> fit_line(std::span<const Point> points) {
    if (points.empty()) return std::nullopt;
    return fit_parallel_lines({std::vector<Point>(points.begin(), points.end())});
}

}  // namespace loafmark::statistics
