#include "statistics/quantiles.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>
#include <stdexcept>
#include <vector>

namespace loafmark::statistics {
namespace {

void check_share(double q) {
    if (!(q >= 0 && q <= 1)) throw std::invalid_argument("quantile: q must lie between 0 and 1");
}

}  // namespace

std::optional<double> mean(std::span<const double> values) {
    if (values.empty()) return std::nullopt;
    return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
}

std::optional<double> quantile(std::span<const double> values, double q) {
    check_share(q);
    if (values.empty()) return std::nullopt;
    std::vector<double> sorted(values.begin(), values.end());
    std::ranges::sort(sorted);
    const double position = static_cast<double>(sorted.size() - 1) * q;
    const auto below = static_cast<std::size_t>(std::floor(position));
    const std::size_t above = std::min(below + 1, sorted.size() - 1);
    return std::lerp(sorted[below], sorted[above], position - std::floor(position));
}

std::optional<double> median(std::span<const double> values) {
    return quantile(values, 0.5);
}

std::optional<double> weighted_quantile(std::span<const double> values,
                                        std::span<const double> weights, double q) {
    check_share(q);
    if (values.size() != weights.size())
        throw std::invalid_argument("weighted_quantile: one weight a value is wanted");
    if (std::ranges::any_of(weights, [](double w) { return !(w >= 0); }))
        throw std::invalid_argument("weighted_quantile: a weight is negative");
    std::vector<std::size_t> order(values.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::ranges::sort(order, {}, [&](std::size_t i) { return values[i]; });
    const double total = std::accumulate(weights.begin(), weights.end(), 0.0);
    if (!(total > 0)) return std::nullopt;
    double sum = 0;
    for (const std::size_t i : order) {
        sum += weights[i];
        if (weights[i] > 0 && sum >= q * total) return values[i];
    }
    // Rounding may leave the sum a hair under the total.
    const auto last = std::ranges::find_if(order.rbegin(), order.rend(),
                                           [&](std::size_t i) { return weights[i] > 0; });
    return values[*last];
}

}  // namespace loafmark::statistics
