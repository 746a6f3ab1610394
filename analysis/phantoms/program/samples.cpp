#include "samples.h"

namespace loafmark::phantoms {

std::vector<PhantomRecipe> sample_recipes() {
    return {};
}

}  // namespace loafmark::phantoms
