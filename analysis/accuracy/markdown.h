// Comparisons as Markdown.
#pragma once

#include <string>
#include <vector>

#include "compare.h"
#include "invariance.h"

namespace loafmark::accuracy {

// A set of photos: what was found, the figures' medians, worst cases and intervals beside the
// goals, what was missed and why. `each_slice` adds a row for every slice.
[[nodiscard]] std::string markdown_of_set(const std::string& heading,
                                          const std::vector<PhotoComparison>& photos,
                                          bool each_slice);

// Every measure that moved is named.
[[nodiscard]] std::string markdown_of_invariance(const std::vector<VariantComparison>& variants);

}  // namespace loafmark::accuracy
