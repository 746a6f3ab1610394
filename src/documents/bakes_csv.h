// Bakes as a table for spreadsheets, `export --csv bakes`.
#pragma once

#include <string>
#include <vector>

#include "journal/records.h"

namespace loafmark::documents {

// RFC 4180, a header row, then a row a loaf with all that is noted of it and of its bake. Units
// stand in the headings. A text that a spreadsheet would take for a formula is preceded by an
// apostrophe.
[[nodiscard]] std::string bakes_csv(const std::vector<journal::BakeEntry>& bakes);

}  // namespace loafmark::documents
