#include "statistics/curve.h"

#include <cmath>
#include <stdexcept>

namespace loafmark::statistics {
namespace {

// The middle of all x: with it taken out, x and its square hardly depend on each other.
double centre_of(const std::vector<std::vector<Point>>& groups) {
    double sum = 0;
    double count = 0;
    for (const std::vector<Point>& group : groups) {
        if (group.empty()) throw std::invalid_argument("fit_curve: a group has no points");
        for (const Point& point : group) {
            sum += point.x;
            ++count;
        }
    }
    if (count == 0) throw std::invalid_argument("fit_curve: no group");
    return sum / count;
}

std::vector<double> row_of(std::size_t group, std::size_t groups, double u) {
    std::vector<double> row(groups + 2, 0.0);
    row[group] = 1;
    row[groups] = u;
    row[groups + 1] = u * u;
    return row;
}

}  // namespace

FittedPoint Curve::at(std::size_t group, double x) const {
    if (group >= groups) throw std::invalid_argument("Curve::at: no such group");
    const std::vector<double> row = row_of(group, groups, x - centre);
    double y = 0;
    for (std::size_t i = 0; i < row.size(); ++i)
        y += row[i] * fit.coefficients[i].value;
    FittedPoint point{x, y, std::nullopt};
    if (fit.degrees_of_freedom >= least_degrees_for_interval) {
        const double half = t_critical(fit.degrees_of_freedom) * *fit.standard_error_at(row);
        point.interval = Interval{y - half, y + half};
    }
    return point;
}

std::optional<Ratio> Curve::turning_point() const {
    if (fit.degrees_of_freedom < least_degrees_for_interval) return std::nullopt;
    const std::size_t n = groups + 2;
    const double variance = *fit.residual_sd * *fit.residual_sd;
    const auto covariance = [&](std::size_t i, std::size_t j) {
        return variance * fit.unscaled_covariance[i * n + j];
    };
    // -b / 2c
    const RatioParts parts{-fit.coefficients[groups].value, 2 * bend().value,
                           covariance(groups, groups), 4 * covariance(groups + 1, groups + 1),
                           -2 * covariance(groups, groups + 1)};
    auto ratio = fieller(parts, t_critical(fit.degrees_of_freedom));
    if (!ratio) return std::nullopt;
    ratio->value += centre;
    if (ratio->interval)
        ratio->interval = {ratio->interval->low + centre, ratio->interval->high + centre};
    return ratio;
}

std::optional<Curve> fit_curve(const std::vector<std::vector<Point>>& groups) {
    Curve curve;
    curve.centre = centre_of(groups);
    curve.groups = groups.size();
    std::vector<std::vector<double>> columns(groups.size() + 2);
    std::vector<double> y;
    for (std::size_t g = 0; g < groups.size(); ++g)
        for (const Point& point : groups[g]) {
            const std::vector<double> row = row_of(g, groups.size(), point.x - curve.centre);
            for (std::size_t i = 0; i < row.size(); ++i)
                columns[i].push_back(row[i]);
            y.push_back(point.y);
        }
    const auto fit = least_squares(columns, y);
    if (!fit) return std::nullopt;
    curve.fit = *fit;
    return curve;
}

}  // namespace loafmark::statistics
