#pragma once

#include <vector>

#include "phantoms/phantom.h"

namespace loafmark::phantoms {

// The photos of sample-images/, from fixed seeds; bakes.json there tells their story.
[[nodiscard]] std::vector<PhantomRecipe> sample_recipes();

}  // namespace loafmark::phantoms
