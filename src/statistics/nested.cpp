#include "statistics/nested.h"

#include <algorithm>
#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/fisher_f.hpp>
#include <cmath>
#include <map>
#include <stdexcept>

namespace loafmark::statistics {
namespace {

constexpr double tail = 0.025;

struct Node {
    double n = 0;
    double sum = 0;
    std::size_t parent = 0;  // in the layer above
    // Sums of squared sizes of the nodes of each layer under this one, itself included.
    std::vector<double> squares;
};
using Layer = std::vector<Node>;

void check(const std::vector<NestedValue>& values) {
    if (values.empty()) throw std::invalid_argument("variance_components: no values");
    for (const NestedValue& value : values) {
        if (value.path.size() != values.front().path.size())
            throw std::invalid_argument("variance_components: paths differ in length");
        if (!std::isfinite(value.value))
            throw std::invalid_argument("variance_components: a value is not finite");
    }
}

// Layer 0 is the whole, then one a layer of the paths, then one node a value. Values are taken less
// the first, so that digits common to all cost nothing.
std::vector<Layer> layers_of(const std::vector<NestedValue>& values) {
    const std::size_t depth = values.front().path.size();
    std::vector<Layer> layers(depth + 2);
    layers[0].emplace_back();
    std::vector<std::map<std::pair<std::size_t, int>, std::size_t>> known(depth);
    for (const NestedValue& value : values) {
        const double y = value.value - values.front().value;
        std::size_t node = 0;
        layers[0][0].n += 1;
        layers[0][0].sum += y;
        for (std::size_t l = 0; l < depth; ++l) {
            const auto [place, fresh] =
                known[l].try_emplace({node, value.path[l]}, layers[l + 1].size());
            if (fresh) layers[l + 1].push_back({0, 0, node, {}});
            node = place->second;
            layers[l + 1][node].n += 1;
            layers[l + 1][node].sum += y;
        }
        layers[depth + 1].push_back({1, y, node, {}});
    }
    return layers;
}

// Fills Node::squares from the innermost layer up.
void sum_squares(std::vector<Layer>& layers) {
    const std::size_t count = layers.size();
    for (Layer& layer : layers)
        for (Node& node : layer)
            node.squares.assign(count, 0.0);
    for (std::size_t l = count; l-- > 0;)
        for (const Node& node : layers[l]) {
            auto squares = node.squares;
            squares[l] = node.n * node.n;
            if (l > 0)
                for (std::size_t m = l; m < count; ++m)
                    layers[l - 1][node.parent].squares[m] += squares[m];
        }
    for (std::size_t l = 0; l < count; ++l)
        for (Node& node : layers[l])
            node.squares[l] = node.n * node.n;
}

double weighted(const Layer& layer, std::size_t inner) {
    double sum = 0;
    for (const Node& node : layer)
        sum += node.squares[inner] / node.n;
    return sum;
}

// How often the variance of layer `inner` stands in the mean square of layer `l`.
double coefficient(const std::vector<Layer>& layers, std::size_t l, std::size_t inner,
                   int degrees) {
    return (weighted(layers[l], inner) - weighted(layers[l - 1], inner)) / degrees;
}

double sum_of_squares(const std::vector<Layer>& layers, std::size_t l) {
    double sum = 0;
    for (const Node& node : layers[l]) {
        const Node& above = layers[l - 1][node.parent];
        const double off = node.sum / node.n - above.sum / above.n;
        sum += node.n * off * off;
    }
    return sum;
}

// A variance as a sum of mean squares, each with its factor.
struct Term {
    double part = 0;  // factor times mean square
    int degrees = 0;
};

double upper_f(double alpha, int n, int m) {
    return quantile(complement(boost::math::fisher_f(n, m), alpha));
}
double upper_f_infinite(double alpha, int n) {
    return quantile(complement(boost::math::chi_squared(n), alpha)) / n;
}

// One end of the interval by modified large samples, as a distance from the estimate; `up`: the
// upper one, at which positive and negative parts change their roles.
double distance(const std::vector<Term>& terms, bool up) {
    const double alpha = up ? 1 - tail : tail;
    const auto near_one = [](int n) { return 1 - 1 / upper_f_infinite(tail, n); };
    const auto far = [](int n) { return 1 / upper_f_infinite(1 - tail, n) - 1; };
    double sum = 0;
    for (const Term& term : terms) {
        const bool positive = term.part > 0;
        const double factor = positive != up ? near_one(term.degrees) : far(term.degrees);
        sum += factor * factor * term.part * term.part;
    }
    for (const Term& plus : terms)
        for (const Term& minus : terms) {
            if (!(plus.part > 0) || !(minus.part < 0)) continue;
            const double f = upper_f(alpha, plus.degrees, minus.degrees);
            const double g = up ? far(plus.degrees) : near_one(plus.degrees);
            const double h = up ? near_one(minus.degrees) : far(minus.degrees);
            const double both = ((f - 1) * (f - 1) - g * g * f * f - h * h) / f;
            sum += both * plus.part * -minus.part;
        }
    return std::sqrt(std::max(sum, 0.0));
}

Interval interval_of(const std::vector<Term>& terms, double estimate) {
    if (terms.size() == 1 && estimate > 0) {
        const int n = terms[0].degrees;
        return {estimate / upper_f_infinite(tail, n), estimate / upper_f_infinite(1 - tail, n)};
    }
    return {std::max(estimate - distance(terms, false), 0.0),
            std::max(estimate + distance(terms, true), 0.0)};
}

// What the solving of the layers found: each variance as factors of the mean squares.
using Factors = std::vector<double>;

std::optional<Factors> factors_of(const std::vector<Layer>& layers, std::size_t l,
                                  const std::vector<VarianceComponent>& found,
                                  const std::vector<std::optional<Factors>>& inner) {
    const int degrees = found[l].degrees_of_freedom;
    if (degrees < 1) return std::nullopt;
    Factors factors(layers.size(), 0.0);
    factors[l] = 1;
    for (std::size_t m = l + 1; m < layers.size(); ++m) {
        if (!inner[m]) continue;  // never repeated: it stands in the layer above it, see nested.h
        const double k = coefficient(layers, l, m, degrees);
        for (std::size_t i = 0; i < factors.size(); ++i)
            factors[i] -= k * (*inner[m])[i];
    }
    const double own = coefficient(layers, l, l, degrees);
    for (double& factor : factors)
        factor /= own;
    return factors;
}

void give_variance(std::vector<VarianceComponent>& found, std::size_t l, const Factors& factors) {
    std::vector<Term> terms;
    double estimate = 0;
    for (std::size_t i = 0; i < factors.size(); ++i) {
        if (std::abs(factors[i]) < 1e-12) continue;
        terms.push_back({factors[i] * *found[i].mean_square, found[i].degrees_of_freedom});
        estimate += terms.back().part;
    }
    std::erase_if(terms, [](const Term& term) { return term.part == 0; });
    found[l].below_zero = estimate < 0;
    found[l].variance = std::max(estimate, 0.0);
    if (!terms.empty()) found[l].interval = interval_of(terms, estimate);
}

}  // namespace

std::vector<VarianceComponent> variance_components(const std::vector<NestedValue>& values) {
    check(values);
    std::vector<Layer> layers = layers_of(values);
    sum_squares(layers);
    std::vector<VarianceComponent> found(layers.size());
    for (std::size_t l = 1; l < layers.size(); ++l) {
        const auto degrees = static_cast<int>(layers[l].size() - layers[l - 1].size());
        found[l].degrees_of_freedom = degrees;
        if (degrees > 0) found[l].mean_square = sum_of_squares(layers, l) / degrees;
    }
    std::vector<std::optional<Factors>> factors(layers.size());
    for (std::size_t l = layers.size(); l-- > 1;) {
        factors[l] = factors_of(layers, l, found, factors);
        if (factors[l]) give_variance(found, l, *factors[l]);
        for (std::size_t m = l + 1; m < layers.size() && !factors[m]; ++m)
            found[l].holds_inner += factors[l] ? 1 : 0;
    }
    found.erase(found.begin());
    return found;
}

}  // namespace loafmark::statistics
