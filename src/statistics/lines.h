// Straight lines through points: one line, or parallel lines through several groups of points (the
// analysis of covariance with one covariate: y = intercept of the group + slope x, after
// e.g. Snedecor and Cochran, Statistical Methods, ch. 18).
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "statistics/interval.h"

namespace loafmark::statistics {

struct Point {
    double x = 0;
    double y = 0;
    bool operator==(const Point&) const = default;
};

// The fitted mean at one x, with its 95 % interval where there is one.
struct FittedPoint {
    double x = 0;
    double y = 0;
    std::optional<Interval> interval;
    bool operator==(const FittedPoint&) const = default;
};

// Parallel lines; with one group, the ordinary straight line.
struct ParallelLines {
    Coefficient slope;                    // common to all groups
    std::vector<Coefficient> intercepts;  // one a group, at x = 0
    int degrees_of_freedom = 0;           // points - groups - 1
    std::optional<double> residual_sd;    // absent without a degree of freedom

    // The line of `group` (from 0) at `count` evenly spaced places from `low` to `high`, at
    // least 2.
    [[nodiscard]] std::vector<FittedPoint> trace(std::size_t group, double low, double high,
                                                 int count) const;

    // What trace() needs besides, by centred x (the slope's error and the groups' means).
    std::vector<Point> group_means;
    std::vector<std::size_t> group_sizes;
};

// One common slope, an intercept a group. A group of one point takes part: its line goes through it
// and it says nothing on the slope. Nothing when no group has two different x. Throws
// std::invalid_argument on an empty group or a number that is not finite.
[[nodiscard]] std::optional<ParallelLines> fit_parallel_lines(
    const std::vector<std::vector<Point>>& groups);

// The ordinary least-squares line: fit_parallel_lines() with one group. Nothing for fewer than two
// different x.
[[nodiscard]] std::optional<ParallelLines> fit_line(std::span<const Point> points);

}  // namespace loafmark::statistics
