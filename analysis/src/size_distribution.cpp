#include "size_distribution.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace loafmark::analysis {

SizeSummary summary_by_number(std::vector<double> diameters) {
    std::sort(diameters.begin(), diameters.end());
    const auto quantile = [&](double q) {
        const double at = q * static_cast<double>(diameters.size() - 1);
        const auto below = static_cast<std::size_t>(std::floor(at));
        const std::size_t above = std::min(below + 1, diameters.size() - 1);
        return std::lerp(diameters[below], diameters[above], at - std::floor(at));
    };
    const double sum = std::accumulate(diameters.begin(), diameters.end(), 0.0);
    return {quantile(0.1), quantile(0.5), quantile(0.9),
            sum / static_cast<double>(diameters.size())};
}

SizeSummary summary_by_area(std::vector<double> diameters) {
    std::sort(diameters.begin(), diameters.end());
    double total = 0, cubes = 0;  // areas are proportional to squared diameters
    for (const double x : diameters)
        total += x * x, cubes += x * x * x;
    const auto quantile = [&](double q) {
        double held = 0;
        for (const double x : diameters) {
            held += x * x;
            // Rounding must not push a share that is reached exactly to the next cell.
            if (held >= q * total * (1 - 1e-12)) return x;
        }
        return diameters.back();
    };
    return {quantile(0.1), quantile(0.5), quantile(0.9), cubes / total};
}

}  // namespace loafmark::analysis
