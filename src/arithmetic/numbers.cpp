#include "arithmetic/numbers.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

namespace loafmark {

std::string_view trimmed(std::string_view text) {
    constexpr std::string_view blanks = " \t\r\n";
    const std::size_t first = text.find_first_not_of(blanks);
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

std::string ascii_lower(std::string_view text) {
    std::string lower(text);
    std::ranges::transform(lower, lower.begin(), [](char c) {
        return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    });
    return lower;
}

std::optional<double> parse_number(std::string_view text) {
    double number = 0;
    const char* const end = text.data() + text.size();
    const auto [stopped, error] =
        std::from_chars(text.data(), end, number, std::chars_format::fixed);
    // from_chars also reads "inf" and "nan".
    if (error != std::errc() || stopped != end || !std::isfinite(number)) return std::nullopt;
    return number;
}

std::string number_text(double number) {
    std::array<char, 400> buffer{};  // holds any double in fixed notation
    const auto result = std::to_chars(buffer.data(), buffer.data() + buffer.size(), number,
                                      std::chars_format::fixed, 10);
    std::string text(buffer.data(), result.ptr);
    if (text.find('.') != std::string::npos) {
        text.erase(text.find_last_not_of('0') + 1);
        if (text.back() == '.') text.pop_back();
    }
    return text == "-0" ? "0" : text;
}

}  // namespace loafmark
