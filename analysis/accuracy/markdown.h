// Comparisons as Markdown.
#pragma once

#include <string>
#include <vector>

#include "compare.h"
#include "invariance.h"

namespace loafmark::accuracy {

enum class Detail {
    medians,  // what was found, medians, worst cases and intervals beside the goals
    misses,   // and what was missed, and why
    slices,   // and a row for every slice
};

[[nodiscard]] std::string markdown_of_set(const std::string& heading,
                                          const std::vector<PhotoComparison>& photos,
                                          Detail detail);

// Every measure that moved is named.
[[nodiscard]] std::string markdown_of_invariance(const std::vector<VariantComparison>& variants);

}  // namespace loafmark::accuracy
