// Comparisons as a Markdown table: each photo, then medians and worst cases.
#pragma once

#include <string>
#include <vector>

#include "compare.h"

namespace loafmark::accuracy {

// `heading` names the set of photos.
[[nodiscard]] std::string markdown_table(const std::string& heading,
                                         const std::vector<Comparison>& comparisons);

}  // namespace loafmark::accuracy
