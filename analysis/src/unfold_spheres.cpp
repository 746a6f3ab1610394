#include "unfold_spheres.h"

#include <algorithm>
#include <cmath>

namespace loafmark::analysis {
namespace {

const double ratio = std::pow(10, 0.1);
// Quantiles read off classes whose spheres all have the upper diameter come out low by a quarter of
// a class, 5.5 %, for log-normal spheres of any spread (found by cutting simulated ones).
constexpr double raised = 0.25;

// Of the sections of a sphere with diameter 1, how thick a slab of planes gives one between those
// diameters.
double slab(double low, double high) {
    return std::sqrt(1 - low * low) - std::sqrt(std::max(0.0, 1 - high * high));
}

// The slab of class k below the sphere's own, per sphere diameter.
double share_below(std::size_t k) {
    const double high = std::pow(ratio, -static_cast<double>(k));
    return slab(high / ratio, high);
}

template <class Weight>
std::optional<double> quantile(const std::vector<SphereClass>& classes, double q,
                               const Weight& weight) {
    double total = 0;
    for (const SphereClass& c : classes)
        total += c.per_volume * weight(c);
    if (total <= 0) return std::nullopt;
    double held = 0;
    for (const SphereClass& c : classes) {
        const double own = c.per_volume * weight(c);
        if (own > 0 && held + own >= q * total * (1 - 1e-12))
            return c.low * std::pow(ratio, raised + std::max(0.0, (q * total - held) / own));
        held += own;
    }
    return classes.back().high * std::pow(ratio, raised);
}

}  // namespace

std::vector<SphereClass> unfolded_spheres(const std::vector<double>& diameters, double area,
                                          double limit) {
    std::vector<SphereClass> classes;
    const auto class_of = [&](double x) {
        // A diameter on an edge belongs to the class above it.
        return static_cast<std::size_t>(std::floor(std::log10(x / limit) * 10 + 1e-9));
    };
    for (const double x : diameters) {
        if (x < limit) continue;
        const std::size_t at = class_of(x);
        while (classes.size() <= at) {
            const double low = limit * std::pow(ratio, static_cast<double>(classes.size()));
            classes.push_back({low, low * ratio, 0, false});
        }
        classes[at].per_volume += 1 / area;  // as yet sections per area
    }
    for (std::size_t j = classes.size(); j-- > 0;) {
        SphereClass& own = classes[j];
        double sections = own.per_volume;
        for (std::size_t larger = j + 1; larger < classes.size(); ++larger)
            sections -= classes[larger].per_volume * classes[larger].high * share_below(larger - j);
        own.was_negative = sections < 0;
        own.per_volume = std::max(0.0, sections) / (own.high * share_below(0));
    }
    return classes;
}

std::vector<double> saltykov_factors(std::size_t count) {
    // N_A(j) = sum over k of N_V(j + k) D(j + k) share_below(k): an upper triangular system whose
    // rows are alike but for the diameters, D(j + k) = D(j) ratio^k.
    std::vector<double> factors;
    for (std::size_t k = 0; k < count; ++k) {
        double sum = k == 0 ? 1 : 0;
        for (std::size_t i = 1; i <= k; ++i)
            sum -= share_below(i) * factors[k - i];
        factors.push_back(sum / share_below(0));
    }
    return factors;
}

std::optional<double> quantile_by_volume(const std::vector<SphereClass>& classes, double q) {
    return quantile(classes, q, [](const SphereClass& c) { return std::pow(c.high, 3); });
}

std::optional<double> quantile_by_number(const std::vector<SphereClass>& classes, double q) {
    return quantile(classes, q, [](const SphereClass&) { return 1.0; });
}

}  // namespace loafmark::analysis
