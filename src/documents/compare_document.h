// A comparison as text: for programs and for a terminal.
#pragma once

#include <string>

#include "insight/compare.h"

namespace loafmark::documents {

// `compare --json`, indented, with a line's end.
[[nodiscard]] std::string compare_document(const insight::Comparison& comparison);

// For people at a terminal: contenders, a table of means, and a sentence a difference.
[[nodiscard]] std::string compare_table(const insight::Comparison& comparison);

}  // namespace loafmark::documents
