// Between formulas and what is mixed.
#pragma once

#include <optional>
#include <vector>

#include "journal/records.h"

namespace loafmark::journal {

// What the formula asks for in this much dough, in its order; not rounded. Bags are left unsaid.
[[nodiscard]] std::vector<MixedAmount> amounts_for_dough(const std::vector<Ingredient>& formula,
                                                         Grams dough);
// The same for this much flour in all, a starter's included.
[[nodiscard]] std::vector<MixedAmount> amounts_for_flour(const std::vector<Ingredient>& formula,
                                                         Grams flour);

// As arithmetic reads them.
[[nodiscard]] std::vector<DoughPart> parts_of(const std::vector<Ingredient>& formula);
[[nodiscard]] std::vector<WeighedPart> parts_of(const std::vector<MixedAmount>& mixed);

}  // namespace loafmark::journal
