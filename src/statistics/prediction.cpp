#include "statistics/prediction.h"

#include "statistics/quantiles.h"
#include "statistics/repeatability.h"

namespace loafmark::statistics {

std::optional<Interval> prediction_interval(std::span<const double> earlier, int new_values) {
    const auto scatter = pooled_repeatability({{earlier.begin(), earlier.end()}});
    // limit() checks new_values, too.
    const auto half =
        scatter ? scatter->limit(static_cast<int>(earlier.size()), new_values) : std::nullopt;
    if (!half) return std::nullopt;
    const double middle = *mean(earlier);
    return Interval{middle - *half, middle + *half};
}

}  // namespace loafmark::statistics
