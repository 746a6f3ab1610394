// Order statistics of a sample, and what intervals are made of.
#pragma once

#include <algorithm>
#include <cstddef>
#include <vector>

namespace loafmark::analysis {

// Standard normal, two-sided 95 %.
inline constexpr double z95 = 1.959963984540054;

// The order statistic next below the quantile q, 0 to 1. `values` must not be empty; it is put into
// another order.
template <typename T>
[[nodiscard]] T quantile_of(std::vector<T>& values, double q) {
    const auto at =
        values.begin() + static_cast<std::ptrdiff_t>(q * static_cast<double>(values.size() - 1));
    std::nth_element(values.begin(), at, values.end());
    return *at;
}

template <typename T>
[[nodiscard]] T quantile_of(std::vector<T>&& values, double q) {
    return quantile_of(values, q);
}

template <typename T>
[[nodiscard]] T median_of(std::vector<T>& values) {
    return quantile_of(values, 0.5);
}

}  // namespace loafmark::analysis
