// Where a new value is to be expected from earlier ones of the same kind.
#pragma once

#include <optional>
#include <span>

#include "statistics/interval.h"

namespace loafmark::statistics {

// Holds the mean of `new_values` further values with 95 % confidence: mean of the earlier ones -+
// t(0.975, n - 1) s sqrt(1 / n + 1 / new_values) (e.g. Hahn and Meeker, Statistical Intervals,
// 1991, ch. 4). Nothing below least_degrees_to_judge (four values). Throws std::invalid_argument
// for new_values < 1 or a number that is not finite.
[[nodiscard]] std::optional<Interval> prediction_interval(std::span<const double> earlier,
                                                          int new_values);

}  // namespace loafmark::statistics
