// How many loaves of a formula the bags still hold flour for.
#pragma once

#include <optional>
#include <string>

#include "analysis/units.h"
#include "journal/journal.h"

namespace loafmark::commands {

// What all bags of a flour hold; nothing where there are none, or the content of one is unknown.
[[nodiscard]] std::optional<Grams> stock_of(journal::FlourId flour,
                                            const journal::Journal& journal);

// "Enough for 5 loaves of 'Country' with 900 g of dough each; 'Dark rye' runs out first.", or which
// flour's stock is not known. `each` is more than zero.
[[nodiscard]] std::string loaves_left_text(const journal::FormulaVersion& formula, Grams each,
                                           const journal::Journal& journal);

}  // namespace loafmark::commands
