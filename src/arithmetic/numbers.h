// Plain decimal numbers, the part that quantities, ranges and their printing share.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace loafmark {

// Without blanks at either end.
[[nodiscard]] std::string_view trimmed(std::string_view text);

// ASCII letters in lower case.
[[nodiscard]] std::string ascii_lower(std::string_view text);

// The whole text as a decimal number, `-1.5`; no exponent, no other sign for the decimals than a
// point. Whatever the locale.
[[nodiscard]] std::optional<double> parse_number(std::string_view text);

// At most ten decimals, no trailing zeros: `1.5`, `66`, `-0.3`.
[[nodiscard]] std::string number_text(double number);

}  // namespace loafmark
