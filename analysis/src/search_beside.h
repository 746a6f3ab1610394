// Where slices may lie in a photo with a target, and how large they may be.
#pragma once

#include <optional>

#include "find_slices.h"
#include "find_target.h"

namespace loafmark::analysis {

// Slices lie on the mat, between its markers and a little beyond; beside a strip they may lie
// anywhere but on it. Without a target nothing is known.
[[nodiscard]] SliceSearch search_beside(const std::optional<SeenTarget>& target);

}  // namespace loafmark::analysis
