// Distributions for several comparisons at once, by numerical integration (Boost has neither).
// Absolute error of a probability below 1e-8 for up to 100 means.
#pragma once

#include <span>

namespace loafmark::statistics {

// P(Q <= q) for the studentised range of `means` independent means with one error variance known to
// `degrees_of_freedom` (Tukey; integral of e.g. Hochberg and Tamhane, Multiple Comparison
// Procedures, app. 3). Throws std::invalid_argument for means < 2 or degrees_of_freedom < 1.
[[nodiscard]] double studentised_range_cdf(double q, int means, int degrees_of_freedom);
[[nodiscard]] double studentised_range_quantile(double probability, int means,
                                                int degrees_of_freedom);

// P(all |T_i| <= d) for Student ratios T_i of differences from one control, with correlations
// `loadings`[i] * `loadings`[j] (Dunnett 1955, 1964). For group sizes n_i and a control of n_0 the
// loading is sqrt(n_i / (n_i + n_0)), sqrt(1/2) when all are equal. Throws std::invalid_argument
// for no loading, one outside [0, 1), or degrees_of_freedom < 1.
[[nodiscard]] double dunnett_cdf(double d, std::span<const double> loadings,
                                 int degrees_of_freedom);
[[nodiscard]] double dunnett_quantile(double probability, std::span<const double> loadings,
                                      int degrees_of_freedom);

}  // namespace loafmark::statistics
