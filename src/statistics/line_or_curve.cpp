#include "statistics/line_or_curve.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <stdexcept>

#include "statistics/repeatability.h"

namespace loafmark::statistics {
namespace {

constexpr int steps = 400;          // along a range that is looked through
constexpr int halvings = 50;        // of a step, to find an end
constexpr double rounding = 1e-12;  // scatter below this share of the values is none

std::optional<LeastSquaresFit> polynomial(std::span<const Point> points, double centre,
                                          int degree) {
    std::vector<std::vector<double>> columns(static_cast<std::size_t>(degree) + 1);
    std::vector<double> y;
    for (const Point& point : points) {
        double power = 1;
        for (std::vector<double>& column : columns) {
            column.push_back(power);
            power *= point.x - centre;
        }
        y.push_back(point.y);
    }
    return least_squares(columns, y);
}

// The place between `inside`, where the condition holds, and `outside`, where it does not.
template <class Condition>
double edge(double inside, double outside, const Condition& holds) {
    for (int i = 0; i < halvings; ++i) {
        const double middle = std::midpoint(inside, outside);
        (holds(middle) ? inside : outside) = middle;
    }
    return inside;
}

// From `from`, where the condition holds, the last place towards `to` up to which it holds; nothing
// where it holds all the way.
template <class Condition>
std::optional<double> last_holding(double from, double to, const Condition& holds) {
    double before = from;
    for (int i = 1; i <= steps; ++i) {
        const double x = std::lerp(from, to, static_cast<double>(i) / steps);
        if (!holds(x)) return edge(before, x, holds);
        before = x;
    }
    return std::nullopt;
}

// Of the places within `step` of x, the one at which `off` is smallest in size, by thirds.
template <class Off>
double least_near(double x, double step, double low, double high, const Off& off) {
    double left = std::max(x - step, low);
    double right = std::min(x + step, high);
    for (int i = 0; i < 2 * halvings; ++i) {
        const double a = left + (right - left) / 3;
        const double b = right - (right - left) / 3;
        if (std::abs(off(a)) <= std::abs(off(b)))
            right = b;
        else
            left = a;
    }
    const double found = std::midpoint(left, right);
    return std::abs(off(found)) < std::abs(off(x)) ? found : x;
}

}  // namespace

double LineOrCurve::t() const {
    return t_critical(fit.degrees_of_freedom);
}

std::vector<double> LineOrCurve::row(double x) const {
    std::vector<double> row;
    double power = 1;
    for (std::size_t i = 0; i < fit.coefficients.size(); ++i) {
        row.push_back(power);
        power *= x - centre;
    }
    return row;
}

double LineOrCurve::value(std::span<const double> row) const {
    double sum = 0;
    for (std::size_t i = 0; i < row.size(); ++i)
        sum += row[i] * fit.coefficients[i].value;
    return sum;
}

double LineOrCurve::error(std::span<const double> row) const {
    return fit.standard_error_at(row).value();
}

std::optional<LineOrCurve> fit_line_or_curve(std::span<const Point> points) {
    LineOrCurve line;
    double largest = 0;
    for (const Point& point : points) {
        line.centre += point.x / static_cast<double>(points.size());
        largest = std::max(largest, std::abs(point.y));
    }
    if (points.empty()) return std::nullopt;
    for (const int degree : {2, 1}) {
        const auto fit = polynomial(points, line.centre, degree);
        const int wanted = degree == 2 ? least_degrees_to_judge : least_degrees_for_interval;
        if (!fit || fit->degrees_of_freedom < wanted) continue;
        if (!(*fit->residual_sd > rounding * largest)) continue;
        if (degree == 2 && !leaves_out_zero(fit->coefficients[2])) continue;
        line.fit = *fit;
        return line;
    }
    return std::nullopt;
}

bool leaves_out_zero(const Coefficient& number) {
    return number.interval && (number.interval->low > 0 || number.interval->high < 0);
}

bool goes_anywhere(const LineOrCurve& line) {
    return line.bends() || leaves_out_zero(line.fit.coefficients[1]);
}

Nearest nearest_to(const LineOrCurve& line, double wanted, int target_values, double low,
                   double high) {
    if (!(low < high)) throw std::invalid_argument("nearest_to: low < high is wanted");
    const double s = *line.fit.residual_sd;
    const double own = target_values > 0 ? s * s / target_values : 0;
    const auto off = [&](double x) { return line.value(line.row(x)) - wanted; };
    const auto half = [&](double x) {
        return line.t() * std::hypot(line.error(line.row(x)), std::sqrt(own));
    };
    Nearest nearest;
    nearest.x = low;
    const bool above = off(low) > 0;
    for (int i = 0; i <= steps && !nearest.reached; ++i) {
        const double x = std::lerp(low, high, static_cast<double>(i) / steps);
        if (off(x) == 0 || (off(x) > 0) != above) {
            const double before = std::lerp(low, high, std::max(i - 1.0, 0.0) / steps);
            nearest.x = edge(before, x, [&](double at) { return (off(at) > 0) == above; });
            nearest.reached = true;
        } else if (std::abs(off(x)) < std::abs(off(nearest.x))) {
            nearest.x = x;
        }
    }
    if (!nearest.reached) nearest.x = least_near(nearest.x, (high - low) / steps, low, high, off);
    nearest.off = nearest.reached ? 0 : off(nearest.x);
    nearest.off_interval = {nearest.off - half(nearest.x), nearest.off + half(nearest.x)};
    const auto alike = [&](double x) { return std::abs(off(x)) <= half(x); };
    if (!alike(nearest.x)) return nearest;
    const double width = high - low;
    nearest.low = last_holding(nearest.x, low - width, alike);
    nearest.high = last_holding(nearest.x, high + width, alike);
    return nearest;
}

double keeps_up_to(const LineOrCurve& line, double share, double start, double end) {
    const double t = t_critical(line.fit.degrees_of_freedom, 0.90);
    const std::vector<double> at_start = line.row(start);
    const auto kept = [&](double x) {
        std::vector<double> row = line.row(x);
        for (std::size_t i = 0; i < row.size(); ++i)
            row[i] -= share * at_start[i];
        return line.value(row) - t * line.error(row) > 0;
    };
    if (!kept(start)) return start;
    return last_holding(start, end, kept).value_or(end);
}

}  // namespace loafmark::statistics
