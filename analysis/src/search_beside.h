// Where slices may lie in a photo with a target, and how large they may be.
#pragma once

#include <optional>

#include "find_slices.h"
#include "find_target.h"

namespace loafmark::analysis {

// Anywhere but on its markers, or on a strip. Without a target nothing is known.
[[nodiscard]] SliceSearch search_beside(const std::optional<SeenTarget>& target);

}  // namespace loafmark::analysis
