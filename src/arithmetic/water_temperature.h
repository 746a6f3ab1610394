// How warm the water must be for the dough to come out as wanted. The rule of thumb of the trade:
// the temperatures of flour, room, water and, where there is one, starter are averaged, and mixing
// adds to them. It treats all parts as equally heavy, and the friction learnt with it makes up for
// what it leaves out, as long as the same dough is mixed in the same way.
#pragma once

#include <optional>

#include "analysis/units.h"

namespace loafmark {

// What warms or cools a dough beside its water.
struct BowlTemperatures {
    Celsius flour{0};
    Celsius room{0};
    std::optional<Celsius> starter;
};

// Kelvins that mixing adds to the sum of the temperatures, so that a dough is warmer by a third of
// it, or by a quarter where there is a starter.
using FrictionKelvins = Quantity<struct FrictionKelvinsTag>;

// n x wanted - flour - room - starter - friction, n being 3 or, with a starter, 4.
[[nodiscard]] Celsius water_temperature(Celsius wanted_dough, const BowlTemperatures& bowl,
                                        FrictionKelvins friction);
// The reverse, from a dough that was measured.
[[nodiscard]] FrictionKelvins friction_of(Celsius measured_dough, const BowlTemperatures& bowl,
                                          Celsius water);

// Above it water harms yeast before the flour has cooled it.
inline constexpr Celsius yeast_limit{40};

// How much of the water must be ice for all of it, melted, to be so cold. Nothing where the tap is
// cold enough; more than `water` where ice alone would not do. W (tap - needed) / (tap + 80): ice
// takes 334 kJ/kg to melt, 80 times what water takes to warm by a kelvin.
[[nodiscard]] std::optional<Grams> ice_for(Grams water, Celsius needed, Celsius tap);

}  // namespace loafmark
