#include "journal/amounts.h"

namespace loafmark::journal {
namespace {

std::vector<MixedAmount> amounts(const std::vector<Ingredient>& formula,
                                 const std::vector<Grams>& masses) {
    std::vector<MixedAmount> mixed;
    for (std::size_t i = 0; i < masses.size(); ++i) {
        const Ingredient& from = formula[i];
        mixed.push_back({.kind = from.kind,
                         .name = from.name,
                         .flour = from.flour,
                         .bag = std::nullopt,
                         .mass = masses[i],
                         .water_fraction = from.water_fraction,
                         .flour_fraction = from.flour_fraction});
    }
    return mixed;
}

}  // namespace

std::vector<MixedAmount> amounts_for_dough(const std::vector<Ingredient>& formula, Grams dough) {
    return amounts(formula, masses_for_dough(parts_of(formula), dough));
}

std::vector<MixedAmount> amounts_for_flour(const std::vector<Ingredient>& formula, Grams flour) {
    return amounts(formula, masses_for_flour(parts_of(formula), flour));
}

std::vector<DoughPart> parts_of(const std::vector<Ingredient>& formula) {
    std::vector<DoughPart> parts;
    for (const Ingredient& from : formula)
        parts.push_back({from.kind, from.share, from.water_fraction, from.flour_fraction});
    return parts;
}

std::vector<WeighedPart> parts_of(const std::vector<MixedAmount>& mixed) {
    std::vector<WeighedPart> parts;
    for (const MixedAmount& from : mixed)
        parts.push_back({from.kind, from.mass, from.water_fraction, from.flour_fraction});
    return parts;
}

}  // namespace loafmark::journal
