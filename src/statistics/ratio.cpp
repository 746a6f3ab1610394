#include "statistics/ratio.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace loafmark::statistics {

std::optional<Ratio> fieller(const RatioParts& parts, double critical_value) {
    const auto& [n, d, var_n, var_d, cov] = parts;
    for (const double number : {n, d, var_n, var_d, cov})
        if (!std::isfinite(number)) throw std::invalid_argument("fieller: a number is not finite");
    if (var_n < 0 || var_d < 0 || !(critical_value > 0))
        throw std::invalid_argument("fieller: variances are at least 0, the critical value above");
    if (d == 0) return std::nullopt;
    const double t2 = critical_value * critical_value;
    Ratio ratio{n / d, std::nullopt, t2 * var_d / (d * d)};
    if (ratio.g >= 1) return ratio;
    // The roots of (n - x d)^2 = t^2 (var_n - 2 x cov + x^2 var_d).
    const double a = d * d - t2 * var_d;
    const double b = n * d - t2 * cov;
    const double c = n * n - t2 * var_n;
    const double half = std::sqrt(std::max(b * b - a * c, 0.0)) / a;
    ratio.interval = Interval{b / a - half, b / a + half};
    return ratio;
}

}  // namespace loafmark::statistics
