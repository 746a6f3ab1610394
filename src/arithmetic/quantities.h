// Quantities as people type them, `500g`, `1.5cm`, `1h10m`, into values of one unit and back. The
// decimal sign is a point; blanks around the number are allowed. A bare number is refused, since
// nothing says what it counts.
#pragma once

#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "analysis/units.h"

namespace loafmark {

// The text is not such a quantity; `what` quotes it and says how to write it:
// "'7O' is not a percentage; write it as 70%".
class QuantityError : public std::runtime_error {
    using std::runtime_error::runtime_error;
};

// The text, with the unit behind it where it is a bare number: what a person means at a prompt, or
// under a heading, that shows the unit.
[[nodiscard]] std::string in_unit(std::string_view text, std::string_view unit);

// Each throws QuantityError on anything else.
// g, kg, oz, lb; zero or more.
[[nodiscard]] Grams parse_mass(std::string_view text);
// mm, cm, in; more than zero.
[[nodiscard]] Millimetres parse_length(std::string_view text);
// One or more lengths, commas between: `14mm,16mm`.
[[nodiscard]] std::vector<Millimetres> parse_lengths(std::string_view text);
// ml, l, mL, L; more than zero.
[[nodiscard]] Millilitres parse_volume(std::string_view text);
// C, F, also with a degree sign; above absolute zero.
[[nodiscard]] Celsius parse_temperature(std::string_view text);
// min, h, or both: `70min`, `1.5h`, `1h10m`, `1h10min`; zero or more.
[[nodiscard]] Minutes parse_duration(std::string_view text);
// %; zero or more. May exceed 100 (hydration does).
[[nodiscard]] Fraction parse_percentage(std::string_view text);

// A span of plain numbers, ends included; an absent end is open.
struct Range {
    std::optional<double> low;
    std::optional<double> high;
    [[nodiscard]] bool contains(double x) const {
        return (!low || x >= *low) && (!high || x <= *high);
    }
    bool operator==(const Range&) const = default;
};

// `66..74`, `0.3..`, `..5`. At least one end, the low one not above the high one.
[[nodiscard]] Range parse_range(std::string_view text);

struct FractionRange {
    std::optional<Fraction> low;
    std::optional<Fraction> high;
    bool operator==(const FractionRange&) const = default;
};

// A range of percentages, `66..74` or `66%..74%`: its dots say that it is one, so the sign may be
// left out.
[[nodiscard]] FractionRange parse_percentage_range(std::string_view text);

// Text that the function above reads back as the same value, to 1e-10 of the unit printed: `500g`,
// `15mm`, `24.5C`, `45min` or `1h10m`, `66%`, `66..74`.
[[nodiscard]] std::string to_text(Grams mass);
[[nodiscard]] std::string to_text(Millimetres length);
[[nodiscard]] std::string to_text(Millilitres volume);
[[nodiscard]] std::string to_text(const std::vector<Millimetres>& lengths);
[[nodiscard]] std::string to_text(Celsius temperature);
[[nodiscard]] std::string to_text(Minutes duration);
[[nodiscard]] std::string to_text(Fraction fraction);
[[nodiscard]] std::string to_text(const Range& range);

// The Fahrenheit scale's own definition.
[[nodiscard]] constexpr double fahrenheit(Celsius temperature) {
    return temperature.degrees() * 9 / 5 + 32;
}

[[nodiscard]] constexpr Hours hours_from(Minutes minutes) {
    return Hours(minutes.count() / 60);
}
[[nodiscard]] constexpr Minutes minutes_from(Hours hours) {
    return Minutes(hours.count() * 60);
}

}  // namespace loafmark
