// Comma-separated values after RFC 4180.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace loafmark::documents {

// A text as a field: preceded by an apostrophe where a spreadsheet would take it for a formula (it
// begins with = + - @, a tab or a carriage return), quoted where it must be.
[[nodiscard]] std::string csv_text(std::string_view text);

// Fields that are ready to print, joined, with CR LF.
[[nodiscard]] std::string csv_row(const std::vector<std::string>& fields);

}  // namespace loafmark::documents
