// Scatter by where it arises, in nested layers: between days, between doughs of a day, between
// loaves of a dough, between slices of a loaf. Estimated by the analysis of variance with the
// coefficients of unequal numbers (Searle, Casella, McCulloch, Variance Components, 1992, ch. 3 and
// app. F).
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "statistics/interval.h"

namespace loafmark::statistics {

// One value and the nodes it hangs on, outermost first; a node's number is its own only under the
// node above it.
struct NestedValue {
    std::vector<int> path;
    double value = 0;
};

struct VarianceComponent {
    int degrees_of_freedom = 0;
    std::optional<double> mean_square;
    // The variance that this layer adds. An estimate below zero is zero, and `below_zero` says so.
    // Absent where nothing of the layer was repeated: one loaf a dough all along. What loaves add
    // is then part of what doughs add, and cannot be parted from it.
    std::optional<double> variance;
    int holds_inner = 0;  // how many layers just within are part of this variance for that reason
    bool below_zero = false;
    // 95 %, of the variance: by chi-squared for the innermost layer, else by modified large samples
    // (Graybill and Wang 1980; Ting et al. 1990), a low end below zero set to zero.
    std::optional<Interval> interval;
};

// One component a layer of the paths, then the one of single values. Throws std::invalid_argument
// for no values, paths of different length, or a number that is not finite.
[[nodiscard]] std::vector<VarianceComponent> variance_components(
    const std::vector<NestedValue>& values);

}  // namespace loafmark::statistics
