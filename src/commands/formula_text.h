// Formulas as people and programs read them.
#pragma once

#include <string>
#include <vector>

#include "journal/records.h"

namespace loafmark::commands {

// Name, version, the ingredients in baker's percent, and what follows from them: hydration and so
// on.
[[nodiscard]] std::string formula_text(const journal::FormulaVersion& formula);

// {"schema": 1, "formulas": [...]}; shares in percent of all flour.
[[nodiscard]] std::string formulas_document(const std::vector<journal::FormulaVersion>& formulas);

// Amounts to weigh, for a scale that shows multiples of `step`, and their sum.
[[nodiscard]] std::string amounts_text(const std::vector<journal::MixedAmount>& amounts,
                                       Grams step);
// The same as JSON, unrounded beside rounded.
[[nodiscard]] std::string amounts_document(const journal::FormulaVersion& formula,
                                           const std::vector<journal::MixedAmount>& amounts,
                                           Grams step);

// Water / flour, "68 %".
[[nodiscard]] std::string hydration_text(const std::vector<journal::Ingredient>& ingredients);

}  // namespace loafmark::commands
