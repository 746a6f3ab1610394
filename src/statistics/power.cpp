#include "statistics/power.h"

#include <boost/math/distributions/non_central_t.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <stdexcept>

namespace loafmark::statistics {
namespace {

// Beyond this the chance is 1 in every digit that is shown, and the series would be long.
constexpr double sure_above_critical = 40;

void check(int degrees_of_freedom, double critical_value) {
    if (degrees_of_freedom < 1)
        throw std::invalid_argument("power: degrees_of_freedom must be at least 1");
    if (!(critical_value > 0) || !std::isfinite(critical_value))
        throw std::invalid_argument("power: the critical value must be above 0");
}

}  // namespace

double power(double true_ratio, int degrees_of_freedom, double critical_value) {
    check(degrees_of_freedom, critical_value);
    if (!std::isfinite(true_ratio)) throw std::invalid_argument("power: no finite ratio");
    const double ratio = std::abs(true_ratio);
    if (ratio == 0) {
        const boost::math::students_t central(degrees_of_freedom);
        return 2 * boost::math::cdf(complement(central, critical_value));
    }
    if (degrees_of_freedom > 2 && ratio > 10 * critical_value + sure_above_critical) return 1;
    const boost::math::non_central_t shifted(degrees_of_freedom, ratio);
    return boost::math::cdf(complement(shifted, critical_value)) +
           boost::math::cdf(shifted, -critical_value);
}

double ratio_seen(double chance, int degrees_of_freedom, double critical_value) {
    check(degrees_of_freedom, critical_value);
    if (!(chance > power(0, degrees_of_freedom, critical_value) && chance < 1))
        throw std::invalid_argument("ratio_seen: no such chance");
    double low = 0;
    double high = critical_value + 1;
    while (power(high, degrees_of_freedom, critical_value) < chance)
        high *= 2;
    for (int i = 0; i < 60; ++i) {
        const double middle = (low + high) / 2;
        (power(middle, degrees_of_freedom, critical_value) < chance ? low : high) = middle;
    }
    return high;
}

}  // namespace loafmark::statistics
