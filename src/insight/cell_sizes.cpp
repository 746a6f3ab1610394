#include "insight/cell_sizes.h"

#include "statistics/quantiles.h"

namespace loafmark::insight {

std::vector<double> relative_areas(const std::vector<double>& diameters) {
    std::vector<double> areas;
    areas.reserve(diameters.size());
    for (const double diameter : diameters)
        areas.push_back(diameter * diameter);
    return areas;
}

std::optional<double> half_of_opening(const std::vector<double>& diameters) {
    return statistics::weighted_quantile(diameters, relative_areas(diameters), 0.5);
}

}  // namespace loafmark::insight
