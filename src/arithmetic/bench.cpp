#include "arithmetic/bench.h"

namespace loafmark {

std::optional<Addition> addition_for(std::span<const WeighedPart> parts, Fraction hydration) {
    double flour = 0;
    double water = 0;
    for (const WeighedPart& part : parts) {
        flour += part.mass.count() * part.flour_fraction.count();
        water += part.mass.count() * part.water_fraction.count();
    }
    if (!(flour > 0)) return std::nullopt;
    const double missing = hydration.count() * flour - water;
    if (missing >= 0) return Addition{Grams(missing), Grams(0)};
    return Addition{Grams(0), Grams(water / hydration.count() - flour)};
}

Fraction bake_loss(Grams dough, Grams baked) {
    return Fraction((dough - baked) / dough);
}

}  // namespace loafmark
