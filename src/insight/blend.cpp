#include "insight/blend.h"

#include <coin/Clp_C_Interface.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <memory>
#include <stdexcept>

namespace loafmark::insight {
namespace {

constexpr double tolerance = 1e-9;
constexpr double unbounded = std::numeric_limits<double>::max();  // as CLP writes it

std::string number(double value) {
    std::string text = std::to_string(std::round(value * 10) / 10);
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
    return text;
}
std::string percent_of(double share) {
    return number(100 * share) + " %";
}
std::string grams_of(double grams) {
    return number(grams) + " g";
}

// The most of a flour that limits and stock allow, as a share.
double upper(const BlendFlour& flour, Grams needed) {
    const double most = flour.most.count();
    return flour.stock ? std::min(most, std::max(0.0, *flour.stock / needed)) : most;
}

struct Free {
    void operator()(Clp_Simplex* model) const { Clp_deleteModel(model); }
};

// The shares that make `cost` least: within limits, summing to one and, where wished, strong
// enough.
std::optional<std::vector<double>> cheapest(const std::vector<BlendFlour>& flours,
                                            const BlendWish& wish, const std::vector<double>& cost,
                                            std::optional<double> strength) {
    const int columns = static_cast<int>(flours.size());
    std::vector<CoinBigIndex> starts;
    std::vector<int> rows;
    std::vector<double> values;
    std::vector<double> low;
    std::vector<double> high;
    for (const BlendFlour& flour : flours) {
        starts.push_back(static_cast<CoinBigIndex>(rows.size()));
        rows.insert(rows.end(), {0, 1});
        values.insert(values.end(), {1.0, flour.strength});
        low.push_back(flour.least.count());
        high.push_back(upper(flour, wish.flour));
    }
    starts.push_back(static_cast<CoinBigIndex>(rows.size()));
    const std::array row_low{1.0, strength.value_or(-unbounded)};
    const std::array row_high{1.0, unbounded};
    const std::unique_ptr<Clp_Simplex, Free> model(Clp_newModel());
    Clp_setLogLevel(model.get(), 0);
    Clp_loadProblem(model.get(), columns, 2, starts.data(), rows.data(), values.data(), low.data(),
                    high.data(), cost.data(), row_low.data(), row_high.data());
    Clp_initialSolve(model.get());
    if (Clp_isProvenOptimal(model.get()) == 0) return std::nullopt;
    const double* const shares = Clp_getColSolution(model.get());
    return std::vector<double>(shares, shares + columns);
}

std::optional<NoBlend> limits_in_the_way(const std::vector<BlendFlour>& flours,
                                         const BlendWish& wish) {
    double least = 0;
    double most = 0;
    std::string holds;
    for (const BlendFlour& flour : flours) {
        const double up = upper(flour, wish.flour);
        if (flour.least.count() > up + tolerance)
            return NoBlend{"at least " + percent_of(flour.least.count()) + " of '" + flour.name +
                           "' is " + grams_of(flour.least.count() * wish.flour.count()) +
                           ", and at most " + grams_of(up * wish.flour.count()) + " may be used"};
        least += flour.least.count();
        most += up;
        holds += (holds.empty() ? "" : ", ") + flour.name + " " + grams_of(up * wish.flour.count());
    }
    if (least > 1 + tolerance) return NoBlend{"the least shares alone add to " + percent_of(least)};
    if (most < 1 - tolerance)
        return NoBlend{"stock and limits allow " + grams_of(most * wish.flour.count()) +
                       " of the " + grams_of(wish.flour.count()) + " needed (" + holds + ")"};
    return std::nullopt;
}

Blend made_of(const std::vector<BlendFlour>& flours, const std::vector<double>& shares) {
    Blend result;
    double protein = 0;
    bool known = true;
    for (std::size_t i = 0; i < flours.size(); ++i) {
        const double share = std::abs(shares[i]) < tolerance ? 0 : shares[i];
        result.shares.emplace_back(share);
        result.strength += share * flours[i].strength;
        known = known && (share <= 0 || flours[i].protein);
        if (flours[i].protein) protein += share * flours[i].protein->count();
    }
    if (known) result.protein = Fraction(protein);
    return result;
}

// Sparing the one flour counts; a hair's weight on the rest draws on what is plentiful.
std::vector<double> cost_of(const std::vector<BlendFlour>& flours, const BlendWish& wish) {
    constexpr double hair = 1e-4;
    std::vector<double> cost;
    for (const BlendFlour& flour : flours)
        cost.push_back(flour.stock && *flour.stock > Grams(0)
                           ? hair * std::min(1.0, wish.flour / *flour.stock)
                           : 0);
    cost[wish.spared] += 1;
    return cost;
}

}  // namespace

std::variant<Blend, NoBlend> blend(const std::vector<BlendFlour>& flours, const BlendWish& wish,
                                   const std::string& unit) {
    if (flours.empty() || !(wish.flour > Grams(0)) || wish.spared >= flours.size())
        throw std::invalid_argument("a blend needs flours, a mass of flour and one to spare");
    if (auto in_the_way = limits_in_the_way(flours, wish)) return *in_the_way;
    if (const auto shares = cheapest(flours, wish, cost_of(flours, wish), wish.strength))
        return made_of(flours, *shares);
    std::vector<double> weakness;
    for (const BlendFlour& flour : flours)
        weakness.push_back(-flour.strength);
    const auto strongest = cheapest(flours, wish, weakness, std::nullopt);
    if (!strongest) throw std::logic_error("a blend within limits was not found");
    const Blend best = made_of(flours, *strongest);
    const double scale = unit == "%" ? 100 : 1;
    return NoBlend{"the strongest blend within stock and limits reaches " +
                   number(scale * best.strength) + " " + unit + ", and " +
                   number(scale * wish.strength.value_or(0)) + " " + unit + " is wished"};
}

}  // namespace loafmark::insight
