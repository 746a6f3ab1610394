// Options that take one of a few words, numbers that count, and moments of a day.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "analysis/units.h"
#include "arithmetic/dates.h"

namespace loafmark::commands {

// "stiff, firm or pours".
[[nodiscard]] std::string words_in_a_row(std::span<const std::string_view> words);

// The one of `words` that the text is, whatever the case; `what` names it: "no cut". Throws
// std::runtime_error.
[[nodiscard]] std::string parse_word(const std::string& text,
                                     std::span<const std::string_view> words, const char* what);

// A whole number from `lowest` to 999; `what` as above. Throws std::runtime_error.
[[nodiscard]] int parse_count(const std::string& text, int lowest, const char* what);

// Readers for add_value(): a mass, a percentage, a temperature, a length, a volume, hours.
[[nodiscard]] Grams read_mass(const std::string& text);
[[nodiscard]] Grams more_than_nothing(const std::string& text);  // a mass that is not 0 g
[[nodiscard]] Fraction read_percentage(const std::string& text);
[[nodiscard]] Celsius read_temperature(const std::string& text);
[[nodiscard]] Millimetres read_length(const std::string& text);
[[nodiscard]] Millilitres read_volume(const std::string& text);
[[nodiscard]] Hours read_hours(const std::string& text);

// A temperature of a dough that is alive: 0 to 50 C (common practice, no source). Throws
// std::runtime_error that asks whether the other scale was meant.
[[nodiscard]] Celsius read_dough_temperature(const std::string& text);

// A temperature of the core of a loaf, which cannot pass 100 C. Throws std::runtime_error that asks
// whether Fahrenheit was meant.
[[nodiscard]] Celsius read_core_temperature(const std::string& text);

// `18:20` of that day, or `2026-03-01 18:20`, as the journal keeps local moments: "2026-03-01
// 18:20". Throws std::runtime_error.
[[nodiscard]] std::string read_moment(const std::string& text, Date day);

// The step that is meant: mix, mixed, proof, baked... Throws std::runtime_error with all steps.
[[nodiscard]] std::string read_step(const std::string& text);

}  // namespace loafmark::commands
