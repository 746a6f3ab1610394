// Random recipes across the whole range of loaves, light, tables and cameras.
#pragma once

#include <cstdint>
#include <vector>

#include "phantoms/phantom.h"

namespace loafmark::phantoms {

// `held_back` differs in loaves, light and tables, not only in the seed: nothing may be tuned on
// it.
enum class Family { development, held_back };

[[nodiscard]] PhantomRecipe random_loaf(std::uint32_t seed, int number, Family family);
// A 40 mm patch of crumb of that family.
[[nodiscard]] PhantomRecipe random_patch(std::uint32_t seed, int number, Family family);

}  // namespace loafmark::phantoms
