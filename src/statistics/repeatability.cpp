#include "statistics/repeatability.h"

#include <boost/math/distributions/chi_squared.hpp>
#include <cmath>
#include <stdexcept>

#include "statistics/quantiles.h"

namespace loafmark::statistics {

std::optional<double> Repeatability::limit() const {
    return limit(1, 1);
}

std::optional<double> Repeatability::limit(int n, int m) const {
    if (n < 1 || m < 1) throw std::invalid_argument("Repeatability::limit: one value at least");
    if (degrees_of_freedom < least_degrees_to_judge) return std::nullopt;
    return t_critical(degrees_of_freedom) * std::sqrt(1.0 / n + 1.0 / m) * sd;
}

std::optional<Repeatability> pooled_repeatability(const std::vector<std::vector<double>>& sets) {
    Repeatability result;
    double squares = 0;
    for (const std::vector<double>& set : sets) {
        for (const double value : set)
            if (!std::isfinite(value))
                throw std::invalid_argument("pooled_repeatability: a value is not finite");
        if (set.size() < 2) continue;
        const double middle = *mean(set);
        for (const double value : set)
            squares += (value - middle) * (value - middle);
        result.degrees_of_freedom += static_cast<int>(set.size()) - 1;
        ++result.sets;
    }
    if (result.degrees_of_freedom == 0) return std::nullopt;
    result.sd = std::sqrt(squares / result.degrees_of_freedom);
    const boost::math::chi_squared distribution(result.degrees_of_freedom);
    result.interval = {std::sqrt(squares / quantile(complement(distribution, 0.025))),
                       std::sqrt(squares / quantile(distribution, 0.025))};
    return result;
}

}  // namespace loafmark::statistics
