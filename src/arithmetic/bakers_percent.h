// Baker's percent: every ingredient as a share of all flour. "All flour" counts the flour within a
// starter; figures on the flour weighed into the bowl alone say so in their names.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "analysis/units.h"

namespace loafmark {

// A leaven whose flour_fraction is above zero is a starter; dry or fresh yeast has none.
enum class IngredientKind { flour, water, salt, leaven, other };

// One ingredient as a share: its mass / the mass of all flour.
struct DoughPart {
    IngredientKind kind = IngredientKind::other;
    Fraction share;
    Fraction water_fraction;  // water / own mass: water 1, milk 0.87, starter at 100 % 0.5
    Fraction flour_fraction;  // flour / own mass: flour 1, starter at 100 % 0.5
    bool operator==(const DoughPart&) const = default;
};

// The same as weighed.
struct WeighedPart {
    IngredientKind kind = IngredientKind::other;
    Grams mass;
    Fraction water_fraction;
    Fraction flour_fraction;
    bool operator==(const WeighedPart&) const = default;
};

// Water and flour of a starter of hydration h (water / flour): h / (1 + h) and 1 / (1 + h).
struct StarterFractions {
    Fraction water_fraction;
    Fraction flour_fraction;
};
[[nodiscard]] StarterFractions starter_fractions(Fraction hydration);

struct DoughFigures {
    Fraction hydration;                      // all water / all flour
    std::optional<Fraction> bowl_hydration;  // outside leavens; nothing where all flour is in them
    Fraction prefermented_flour;             // flour within leavens / all flour
    Fraction salt;                           // salt / all flour
    Fraction total;                          // dough / all flour
    bool operator==(const DoughFigures&) const = default;
};

// Nothing where the parts hold no flour.
[[nodiscard]] std::optional<DoughFigures> figures_of(std::span<const DoughPart> parts);
[[nodiscard]] std::optional<DoughFigures> figures_of(std::span<const WeighedPart> parts);

// The same dough with shares of all flour, whatever the shares were of before: of the flour in the
// bowl (as many books write), or plain weights. Empty where the parts hold no flour.
[[nodiscard]] std::vector<DoughPart> as_shares_of_all_flour(std::span<const DoughPart> parts);
[[nodiscard]] std::vector<DoughPart> as_shares_of_all_flour(std::span<const WeighedPart> parts);

// Masses in the order of the parts that make this much dough, or this much flour in all. Not
// rounded. Shares must be of all flour for masses_for_flour(). Empty where the shares sum to
// nothing.
[[nodiscard]] std::vector<Grams> masses_for_dough(std::span<const DoughPart> parts, Grams dough);
[[nodiscard]] std::vector<Grams> masses_for_flour(std::span<const DoughPart> parts, Grams flour);

// Masses for a scale that shows multiples of `step` (more than zero). The roundings cancel: the sum
// stays within half a step of the unrounded one, and each mass within one step. A mass of less than
// ten steps (salt, yeast) is rounded to a tenth of a step instead, or to a hundredth below one
// step, since a whole step would change it too much.
[[nodiscard]] std::vector<Grams> rounded_to_step(std::span<const Grams> masses, Grams step);

}  // namespace loafmark
