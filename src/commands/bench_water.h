// How warm the water of a dough must be, in words.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "arithmetic/water_temperature.h"
#include "commands/text.h"
#include "journal/records.h"

namespace loafmark::commands {

struct WaterQuestion {
    Celsius wanted;  // the dough
    Celsius room;
    std::optional<Celsius> flour;    // left out: the room's
    std::optional<Celsius> starter;  // the same
    std::optional<Celsius> tap;
    std::optional<FrictionKelvins> friction;
    std::optional<std::string> mixed_by;
    Degrees degrees = Degrees::celsius;  // of the answer
};

// The middle of what the bakes tell that note room, water and dough temperature, and how many they
// are: bakes with a starter, or those without; mixed by that, where it is said; those set aside
// not.
struct LearntFriction {
    FrictionKelvins friction;
    int bakes = 0;
};
[[nodiscard]] std::optional<LearntFriction> learnt_friction(
    const std::vector<journal::BakeEntry>& bakes, bool with_starter,
    const std::optional<std::string>& mixed_by);

// A sentence with the water's temperature, and where it matters the ice or the warning for yeast.
// `masses` are of the formula's ingredients.
[[nodiscard]] std::string water_text(const WaterQuestion& question,
                                     const journal::FormulaVersion& formula,
                                     const std::vector<Grams>& masses,
                                     const std::vector<journal::BakeEntry>& bakes);

}  // namespace loafmark::commands
