// A parabola through points, y = a + b x + c x^2, parallel ones through several groups (an
// intercept each: flours, days), and where it peaks.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "statistics/least_squares.h"
#include "statistics/lines.h"
#include "statistics/ratio.h"

namespace loafmark::statistics {

struct Curve {
    LeastSquaresFit fit;  // columns: an intercept a group, then u and u^2 with u = x - centre
    double centre = 0;
    std::size_t groups = 1;

    [[nodiscard]] const Coefficient& bend() const { return fit.coefficients.at(groups + 1); }
    // The fitted mean of `group` at x.
    [[nodiscard]] FittedPoint at(std::size_t group, double x) const;
    // The x of the highest (bend below zero) or lowest place, with Fieller's 95 % interval; absent
    // with no bend at all or fewer than two degrees of freedom.
    [[nodiscard]] std::optional<Ratio> turning_point() const;
};

// Nothing when the points do not determine it (no group spreads over three different x, in effect).
// Throws std::invalid_argument on an empty group or a number that is not finite.
[[nodiscard]] std::optional<Curve> fit_curve(const std::vector<std::vector<Point>>& groups);

}  // namespace loafmark::statistics
