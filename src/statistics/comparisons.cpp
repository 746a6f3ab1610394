#include "statistics/comparisons.h"

#include <algorithm>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <numbers>
#include <optional>
#include <stdexcept>

#include "statistics/simultaneous.h"

namespace loafmark::statistics {
namespace {

constexpr double confidence = 0.95;
constexpr double rounding = 1e-12;     // scatter below this share of a mean is none
constexpr double product_form = 1e-7;  // how nearly correlations must be products

void check(const GroupMeans& groups) {
    double largest = 0;
    for (const double mean : groups.means)
        largest = std::max(largest, std::abs(mean));
    if (!(groups.residual_sd > rounding * largest))
        throw std::invalid_argument("comparisons: the groups have no scatter within");
}

Difference difference(const GroupMeans& groups, std::size_t group, std::size_t from) {
    Difference result;
    result.group = group;
    result.from = from;
    result.value = groups.means[group] - groups.means[from];
    result.standard_error =
        groups.residual_sd * std::sqrt(groups.unscaled_variance_of_difference(group, from));
    return result;
}

void give_interval(Difference& d) {
    const double half = d.critical_value * d.standard_error;
    d.interval = {d.value - half, d.value + half};
}

double correlation(const GroupMeans& groups, std::size_t i, std::size_t j, std::size_t control) {
    const double covariance =
        groups.unscaled_covariance_of(i, j) - groups.unscaled_covariance_of(i, control) -
        groups.unscaled_covariance_of(j, control) + groups.unscaled_covariance_of(control, control);
    return covariance / std::sqrt(groups.unscaled_variance_of_difference(i, control) *
                                  groups.unscaled_variance_of_difference(j, control));
}

// Loadings whose products are the correlations, where there are such.
std::optional<std::vector<double>> loadings_of(const GroupMeans& groups,
                                               const std::vector<Difference>& list,
                                               std::size_t control) {
    const std::size_t m = list.size();
    const auto r = [&](std::size_t i, std::size_t j) {
        return correlation(groups, list[i].group, list[j].group, control);
    };
    if (m == 1) return std::vector<double>{0};
    if (m == 2 && r(0, 1) < 0) return std::nullopt;
    const double first = m == 2 ? std::sqrt(r(0, 1)) : std::sqrt(r(0, 1) * r(0, 2) / r(1, 2));
    if (!(first > 0 && first < 1)) return std::nullopt;
    std::vector<double> loadings{first};
    for (std::size_t i = 1; i < m; ++i)
        loadings.push_back(r(0, i) / first);
    for (std::size_t i = 0; i < m; ++i) {
        if (!(loadings[i] >= 0 && loadings[i] < 1)) return std::nullopt;
        for (std::size_t j = 0; j < i; ++j)
            if (std::abs(loadings[i] * loadings[j] - r(i, j)) > product_form) return std::nullopt;
    }
    return loadings;
}

void adjust_by_sidak(std::vector<Difference>& list, int degrees) {
    const auto count = static_cast<double>(list.size());
    const double each = std::pow(confidence, 1 / count);
    const boost::math::students_t t(degrees);
    for (Difference& d : list) {
        const double alone = 2 * cdf(complement(t, std::abs(d.value) / d.standard_error));
        d.p = -std::expm1(count * std::log1p(-std::min(alone, 1.0)));
        d.critical_value = t_critical(degrees, each);
        d.adjustment = Adjustment::sidak;
        give_interval(d);
    }
}

}  // namespace

std::vector<Difference> against_control(const GroupMeans& groups, std::size_t control) {
    check(groups);
    if (control >= groups.means.size())
        throw std::invalid_argument("against_control: the control is none of the groups");
    std::vector<Difference> list;
    for (std::size_t i = 0; i < groups.means.size(); ++i)
        if (i != control) list.push_back(difference(groups, i, control));
    const int degrees = groups.degrees_of_freedom;
    const auto loadings = loadings_of(groups, list, control);
    if (!loadings) {
        adjust_by_sidak(list, degrees);
        return list;
    }
    const double critical = dunnett_quantile(confidence, *loadings, degrees);
    for (Difference& d : list) {
        d.p = 1 - dunnett_cdf(std::abs(d.value) / d.standard_error, *loadings, degrees);
        d.critical_value = critical;
        give_interval(d);
    }
    return list;
}

std::vector<Difference> all_pairs(const GroupMeans& groups) {
    check(groups);
    const auto means = static_cast<int>(groups.means.size());
    const int degrees = groups.degrees_of_freedom;
    const double critical = studentised_range_quantile(confidence, means, degrees);
    std::vector<Difference> list;
    for (std::size_t i = 0; i < groups.means.size(); ++i)
        for (std::size_t j = i + 1; j < groups.means.size(); ++j) {
            Difference d = difference(groups, j, i);
            const double q = std::abs(d.value) / d.standard_error * std::numbers::sqrt2;
            d.p = 1 - studentised_range_cdf(q, means, degrees);
            d.critical_value = critical / std::numbers::sqrt2;
            d.adjustment = Adjustment::tukey_kramer;
            give_interval(d);
            list.push_back(d);
        }
    return list;
}

}  // namespace loafmark::statistics
