// Random draws that recipes of every kind share.
#pragma once

#include <cstdint>

#include "phantoms/dice.h"
#include "phantoms/recipes.h"

namespace loafmark::phantoms {

struct FlourLook {
    Colour crumb;
    Colour bran;
    double bran_share;
    double most_open;  // openness that such a flour reaches
};

[[nodiscard]] const FlourLook& flour_look(Dice& dice);
[[nodiscard]] const FlourLook& white_flour();

[[nodiscard]] BreadLook bread_look(Dice& dice, const FlourLook& flour);
[[nodiscard]] FoamRecipe foam_recipe(Dice& dice, Family family, double most_open);
[[nodiscard]] LoafShape loaf_shape(Dice& dice, Family family);
[[nodiscard]] CrustShape crust_shape(Dice& dice);
[[nodiscard]] LightRecipe light_recipe(Dice& dice, Family family);
[[nodiscard]] Development development(Dice& dice);
[[nodiscard]] Surface surface(Dice& dice, Family family);
[[nodiscard]] Colour surface_tint(Dice& dice);
[[nodiscard]] bool is_cloth(Surface surface);

[[nodiscard]] Dice dice_of(std::uint32_t seed, int number, Family family, std::uint32_t what);

}  // namespace loafmark::phantoms
