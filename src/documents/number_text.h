// Numbers as text, whatever the locale.
#pragma once

#include <array>
#include <charconv>
#include <cmath>
#include <string>

namespace loafmark::documents {

// Rounded to so many significant digits. No measure here is known to more than five; the rest keeps
// computed values from showing their last bits.
[[nodiscard]] inline double rounded(double value, int significant_digits = 9) {
    if (!std::isfinite(value) || value == 0) return value == 0 ? 0.0 : value;
    std::array<char, 64> text{};
    const auto end = std::to_chars(text.data(), text.data() + text.size(), value,
                                   std::chars_format::scientific, significant_digits - 1)
                         .ptr;
    double result = value;
    std::from_chars(text.data(), end, result);
    return result;
}

// The shortest text that reads back as rounded(value); empty for what is not finite.
[[nodiscard]] inline std::string short_text(double value, int significant_digits = 9) {
    if (!std::isfinite(value)) return "";
    std::array<char, 64> text{};
    const auto end =
        std::to_chars(text.data(), text.data() + text.size(), rounded(value, significant_digits))
            .ptr;
    return {text.data(), end};
}

}  // namespace loafmark::documents
