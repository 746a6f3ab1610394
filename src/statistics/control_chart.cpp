#include "statistics/control_chart.h"

#include <cmath>
#include <stdexcept>

#include "statistics/quantiles.h"

namespace loafmark::statistics {
namespace {

// Expected range of two values of a normal distribution, in standard deviations: 2 / sqrt(pi).
constexpr double range_of_two = 1.1283791670955126;

// -1, 0 or 1.
int side(double value, double centre) {
    return value > centre ? 1 : value < centre ? -1 : 0;
}

void find_runs(std::span<const double> values, ControlChart& chart) {
    std::size_t start = 0;
    const auto close = [&](std::size_t end) {
        if (end - start >= run_length && side(values[start], chart.centre) != 0)
            for (std::size_t i = start; i < end; ++i)
                chart.in_runs.push_back(i);
    };
    for (std::size_t i = 1; i < values.size(); ++i)
        if (side(values[i], chart.centre) != side(values[start], chart.centre)) {
            close(i);
            start = i;
        }
    close(values.size());
    const int last = side(values.back(), chart.centre);
    chart.last_run = last == 0 ? 0 : static_cast<int>(values.size() - start);
    chart.last_run_above = last > 0;
}

}  // namespace

std::optional<ControlChart> control_chart(std::span<const double> values) {
    for (const double value : values)
        if (!std::isfinite(value))
            throw std::invalid_argument("control_chart: a value is not finite");
    if (std::ssize(values) < least_values_for_limits) return std::nullopt;
    ControlChart chart;
    chart.centre = *mean(values);
    double steps = 0;
    for (std::size_t i = 1; i < values.size(); ++i)
        steps += std::abs(values[i] - values[i - 1]);
    if (!(steps > 0)) return std::nullopt;
    chart.sd = steps / static_cast<double>(values.size() - 1) / range_of_two;
    chart.low = chart.centre - 3 * chart.sd;
    chart.high = chart.centre + 3 * chart.sd;
    for (std::size_t i = 0; i < values.size(); ++i)
        if (values[i] < chart.low || values[i] > chart.high) chart.outside.push_back(i);
    find_runs(values, chart);
    return chart;
}

}  // namespace loafmark::statistics
