// Random draws that recipes of every kind share.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>

#include "phantoms/random.h"
#include "phantoms/recipes.h"

namespace loafmark::phantoms {

inline constexpr double pi = std::numbers::pi;

// Draws for recipes, all from one stream.
class Dice {
  public:
    explicit Dice(std::uint32_t key) : stream_(key) {}
    double between(double low, double high) { return low + (high - low) * stream_.next(); }
    // Even in the logarithm.
    double ratio(double low, double high) {
        return low * std::pow(high / low, static_cast<double>(stream_.next()));
    }
    bool chance(double p) { return stream_.next() < p; }
    int pick(int n) {
        return std::min(n - 1, static_cast<int>(stream_.next() * static_cast<float>(n)));
    }
    std::uint32_t seed() { return static_cast<std::uint32_t>(stream_.next() * 16777216.0f) + 1; }
    float f(double low, double high) { return static_cast<float>(between(low, high)); }

  private:
    RandomStream stream_;
};

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
