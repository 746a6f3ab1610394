// The arithmetic of the bench: what the bowl weighs, and what brings a dough to another hydration.
#pragma once

#include <optional>
#include <span>

#include "arithmetic/bakers_percent.h"

namespace loafmark {

// What must still go into the bowl: water to make a dough wetter, flour to make it stiffer. The
// other one is nothing.
struct Addition {
    Grams water;
    Grams flour;
    bool operator==(const Addition&) const = default;
};

// Nothing where the parts hold no flour. `hydration` must be more than zero.
[[nodiscard]] std::optional<Addition> addition_for(std::span<const WeighedPart> parts,
                                                   Fraction hydration);

// (dough - baked) / dough; both more than zero.
[[nodiscard]] Fraction bake_loss(Grams dough, Grams baked);

}  // namespace loafmark
