// Bakes as texts for programs, `find --json` and `find --csv`.
#pragma once

#include <string>
#include <vector>

#include "journal/records.h"

namespace loafmark::documents {

// {"schema": 1, "bakes": [...]}, indented, with a line's end. Shares are fractions of all flour.
[[nodiscard]] std::string find_document(const std::vector<journal::BakeEntry>& bakes);

// RFC 4180, a header row and then one row a slice; a bake without slices has one row. A text that a
// spreadsheet would take for a formula is preceded by an apostrophe.
[[nodiscard]] std::string find_csv(const std::vector<journal::BakeEntry>& bakes);

}  // namespace loafmark::documents
