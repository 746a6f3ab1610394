// Quantiles of cell diameters, by number and by area.
#pragma once

#include <vector>

namespace loafmark::analysis {

struct SizeSummary {
    double d10 = 0, d50 = 0, d90 = 0, mean = 0;  // in the diameters' unit
};

// Every cell counts once (ISO 9276-1 index 0); quantiles interpolate linearly between order
// statistics (Hyndman and Fan 1996, type 7). `diameters` not empty, in any order.
[[nodiscard]] SizeSummary summary_by_number(std::vector<double> diameters);

// Every cell counts by its area (index 2): quantile q is the smallest diameter such that cells up
// to and including it hold the share q of all cell area. `diameters` not empty, in any order.
[[nodiscard]] SizeSummary summary_by_area(std::vector<double> diameters);

// The same of any share q, 0 to 1.
[[nodiscard]] double quantile_by_area(std::vector<double> diameters, double q);

}  // namespace loafmark::analysis
