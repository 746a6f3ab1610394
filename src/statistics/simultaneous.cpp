#include "statistics/simultaneous.h"

#include <algorithm>
#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/quadrature/gauss.hpp>
#include <boost/math/tools/roots.hpp>
#include <cmath>
#include <numbers>
#include <stdexcept>

namespace loafmark::statistics {
namespace {

constexpr double beyond = 8;       // standard deviations that hold all but 1e-15
constexpr double no_mass = 1e-14;  // of the scatter's distribution, left out at either end

double normal_cdf(double z) {
    return std::erfc(-z / std::numbers::sqrt2) / 2;
}

double normal_density(double z) {
    return std::exp(-z * z / 2) / std::sqrt(2 * std::numbers::pi);
}

template <class Function>
double integral(const Function& f, double low, double high, int panels) {
    double sum = 0;
    for (int i = 0; i < panels; ++i)
        sum += boost::math::quadrature::gauss<double, 20>::integrate(
            f, std::lerp(low, high, static_cast<double>(i) / panels),
            std::lerp(low, high, static_cast<double>(i + 1) / panels));
    return sum;
}

// The mean of `probability`(s) over s, the estimated scatter as a share of the true one: a
// chi-squared variable over its degrees of freedom, under the root.
template <class Function>
double over_scatter(const Function& probability, int degrees) {
    const boost::math::chi_squared distribution(degrees);
    const double low = std::sqrt(quantile(distribution, no_mass) / degrees);
    const double high = std::sqrt(quantile(complement(distribution, no_mass)) / degrees);
    // With few degrees the probability climbs within a short way from zero: s goes as a square, so
    // that places lie close there.
    const auto weighted = [&](double u) {
        const double s = low + (high - low) * u * u;
        // d(chi-squared) = 2 degrees s ds, and ds = 2 (high - low) u du
        return 4 * degrees * s * (high - low) * u * pdf(distribution, degrees * s * s) *
               probability(s);
    };
    return std::clamp(integral(weighted, 0, 1, 4), 0.0, 1.0);
}

double range_cdf(double width, int means) {
    if (width <= 0) return 0;
    const auto lowest_at = [&](double z) {
        return normal_density(z) *
               std::pow(std::max(normal_cdf(z + width) - normal_cdf(z), 0.0), means - 1);
    };
    return means * integral(lowest_at, -beyond, beyond, 5);
}

double all_within(double d, std::span<const double> loadings) {
    const auto given_control = [&](double z) {
        double product = normal_density(z);
        for (const double loading : loadings) {
            const double own = std::sqrt(1 - loading * loading);
            product *= normal_cdf((loading * z + d) / own) - normal_cdf((loading * z - d) / own);
        }
        return product;
    };
    return integral(given_control, -beyond, beyond, 5);
}

void check_degrees(int degrees) {
    if (degrees < 1) throw std::invalid_argument("degrees_of_freedom must be at least 1");
}

// The value at which the increasing `cdf` reaches `probability`.
template <class Cdf>
double inverse(const Cdf& cdf, double probability) {
    if (!(probability > 0 && probability < 1))
        throw std::invalid_argument("a probability must lie between 0 and 1");
    double high = 4;
    while (cdf(high) < probability && high < 1e8)
        high *= 2;
    std::uintmax_t steps = 60;
    const auto bracket = boost::math::tools::toms748_solve(
        [&](double x) { return cdf(x) - probability; }, 0.0, high, -probability,
        cdf(high) - probability, boost::math::tools::eps_tolerance<double>(36), steps);
    return (bracket.first + bracket.second) / 2;
}

}  // namespace

double studentised_range_cdf(double q, int means, int degrees_of_freedom) {
    check_degrees(degrees_of_freedom);
    if (means < 2) throw std::invalid_argument("studentised_range_cdf: two means at least");
    if (!(q > 0)) return 0;
    return over_scatter([&](double s) { return range_cdf(q * s, means); }, degrees_of_freedom);
}

double studentised_range_quantile(double probability, int means, int degrees_of_freedom) {
    return inverse([&](double q) { return studentised_range_cdf(q, means, degrees_of_freedom); },
                   probability);
}

double dunnett_cdf(double d, std::span<const double> loadings, int degrees_of_freedom) {
    check_degrees(degrees_of_freedom);
    if (loadings.empty()) throw std::invalid_argument("dunnett_cdf: no comparison");
    for (const double loading : loadings)
        if (!(loading >= 0 && loading < 1))
            throw std::invalid_argument("dunnett_cdf: loadings lie between 0 and 1");
    if (!(d > 0)) return 0;
    return over_scatter([&](double s) { return all_within(d * s, loadings); }, degrees_of_freedom);
}

double dunnett_quantile(double probability, std::span<const double> loadings,
                        int degrees_of_freedom) {
    return inverse([&](double d) { return dunnett_cdf(d, loadings, degrees_of_freedom); },
                   probability);
}

}  // namespace loafmark::statistics
