// A trend as text: for programs, for spreadsheets and for a terminal.
#pragma once

#include <string>

#include "insight/trend.h"

namespace loafmark::documents {

// `trend --json`, indented, with a line's end.
[[nodiscard]] std::string trend_document(const insight::Trend& trend);

// One row a bake.
[[nodiscard]] std::string trend_csv(const insight::Trend& trend);

// For people at a terminal: the bakes by flour in aligned columns, the slopes, the sentence.
[[nodiscard]] std::string trend_table(const insight::Trend& trend);

}  // namespace loafmark::documents
