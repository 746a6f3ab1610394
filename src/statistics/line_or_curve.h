// A straight line through points or, where they bend beyond chance, a parabola; where it comes
// nearest to a value, and how far along it keeps above a share of its start.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "statistics/interval.h"
#include "statistics/least_squares.h"
#include "statistics/lines.h"

namespace loafmark::statistics {

struct LineOrCurve {
    LeastSquaresFit fit;  // of 1, u and, if it bends, u^2, with u = x - centre
    double centre = 0;
    [[nodiscard]] bool bends() const { return fit.coefficients.size() == 3; }
    [[nodiscard]] double t() const;  // Student's, 95 % two-sided
    [[nodiscard]] std::vector<double> row(double x) const;
    // Of the coefficients times a row, or times a difference of rows: value and standard error.
    [[nodiscard]] double value(std::span<const double> row) const;
    [[nodiscard]] double error(std::span<const double> row) const;
};

// The parabola is taken with three degrees of freedom and where the 95 % interval of its bend
// leaves out zero. Nothing for fewer than two different x, fewer than two degrees of freedom or no
// scatter at all. Throws std::invalid_argument for a number that is not finite.
[[nodiscard]] std::optional<LineOrCurve> fit_line_or_curve(std::span<const Point> points);

// Whether its interval tells it from nought; a number without one is not told.
[[nodiscard]] bool leaves_out_zero(const Coefficient& number);

// Whether the slope (of a parabola, slope or bend) is told from nought.
[[nodiscard]] bool goes_anywhere(const LineOrCurve& line);

// Where it comes nearest to a wanted value.
struct Nearest {
    double x = 0;
    bool reached = false;  // the value itself is reached there
    double off = 0;        // fitted value at x less the wanted one
    Interval off_interval;
    // The ends of all x about this one whose fitted value is not told apart from the wanted one
    // (for a straight line Fieller's interval); absent where there is no such end within twice the
    // range looked at, or no such x at all.
    std::optional<double> low;
    std::optional<double> high;
};

// Of the x from `low` to `high`, low < high; of several that reach it, the lowest. The wanted value
// may be a mean of n values that scatter alike: then `target_values` is n; 0: it is exact.
[[nodiscard]] Nearest nearest_to(const LineOrCurve& line, double wanted, int target_values,
                                 double low, double high);

// The largest x from `start` to `end` up to which the one-sided 95 % lower bound of (fitted value
// at x) - share (fitted value at start) stays above nought. `start` at least.
[[nodiscard]] double keeps_up_to(const LineOrCurve& line, double share, double start, double end);

}  // namespace loafmark::statistics
