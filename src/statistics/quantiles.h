#pragma once

#include <optional>
#include <span>

namespace loafmark::statistics {

// Nothing for no values.
[[nodiscard]] std::optional<double> mean(std::span<const double> values);

// Quantile `q` by linear interpolation between order statistics, position (n - 1) q (type 7 of
// Hyndman and Fan 1996). Nothing for no values. Throws std::invalid_argument when q lies outside
// [0, 1].
[[nodiscard]] std::optional<double> quantile(std::span<const double> values, double q);

[[nodiscard]] std::optional<double> median(std::span<const double> values);

// The smallest value such that values up to and including it hold the share `q` of all weight (the
// quantile "by area" of docs/measurement.md). Nothing for no values or no weight. Throws
// std::invalid_argument when lengths differ, a weight is negative or q lies outside [0, 1].
[[nodiscard]] std::optional<double> weighted_quantile(std::span<const double> values,
                                                      std::span<const double> weights, double q);

}  // namespace loafmark::statistics
