// What changed between two versions of a formula.
#pragma once

#include <string>

#include "journal/records.h"

namespace loafmark::commands {

// A line an ingredient that changed, came or went, then hydration and salt where they changed.
[[nodiscard]] std::string formula_diff(const journal::FormulaVersion& from,
                                       const journal::FormulaVersion& to);

}  // namespace loafmark::commands
