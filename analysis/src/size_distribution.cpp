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

namespace {

double quantile_of_sorted(const std::vector<double>& sorted, double q) {
    double total = 0, held = 0;  // areas are proportional to squared diameters
    for (const double x : sorted)
        total += x * x;
    for (const double x : sorted) {
        held += x * x;
        // Rounding must not push a share that is reached exactly to the next cell.
        if (held >= q * total * (1 - 1e-12)) return x;
    }
    return sorted.back();
}

}  // namespace

SizeSummary summary_by_area(std::vector<double> diameters) {
    std::sort(diameters.begin(), diameters.end());
    double total = 0, cubes = 0;
    for (const double x : diameters)
        total += x * x, cubes += x * x * x;
    return {quantile_of_sorted(diameters, 0.1), quantile_of_sorted(diameters, 0.5),
            quantile_of_sorted(diameters, 0.9), cubes / total};
}

double quantile_by_area(std::vector<double> diameters, double q) {
    std::sort(diameters.begin(), diameters.end());
    return quantile_of_sorted(diameters, q);
}

}  // namespace loafmark::analysis
