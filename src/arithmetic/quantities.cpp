#include "arithmetic/quantities.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

#include "arithmetic/numbers.h"

namespace loafmark {
namespace {

struct Unit {
    std::string_view name;  // lower case
    // value = (number - zero) * numerator / denominator; whole numbers, so that nothing is lost.
    double numerator;
    double denominator = 1;
    double zero = 0;
};

struct Kind {
    std::string_view noun;
    std::string_view example;
    std::span<const Unit> units;
    std::string_view shown_unit;  // the first of them as printed
    double lowest;                // in the value's unit
    bool lowest_allowed;
    std::string_view lowest_in_words;
};

// The international pound and inch, by definition 0.45359237 kg and 25.4 mm.
constexpr std::array mass_units{Unit{"g", 1}, Unit{"kg", 1000}, Unit{"oz", 453.59237, 16},
                                Unit{"lb", 453.59237}};
constexpr std::array length_units{Unit{"mm", 1}, Unit{"cm", 10}, Unit{"in", 25.4}};
constexpr std::array volume_units{Unit{"ml", 1}, Unit{"l", 1000}};
constexpr std::array temperature_units{Unit{"c", 1}, Unit{"f", 5, 9, 32}, Unit{"\u00b0c", 1},
                                       Unit{"\u00b0f", 5, 9, 32}};
constexpr std::array percent_units{Unit{"%", 1, 100}};
constexpr std::array hour_units{Unit{"h", 60}};
constexpr std::array minute_units{Unit{"min", 1}, Unit{"m", 1}};

constexpr Kind mass_kind{"a mass", "500g", mass_units, "g", 0, true, "zero or more"};
constexpr Kind length_kind{"a length", "15mm", length_units, "mm", 0, false, "more than zero"};
constexpr Kind volume_kind{"a volume", "1.8l or 1800ml", volume_units, "ml", 0,
                           false,      "more than zero"};
constexpr Kind temperature_kind{"a temperature", "24.5C", temperature_units, "C",
                                -273.15,         false,   "above -273.15C"};
constexpr Kind percent_kind{"a percentage", "70%", percent_units, "%", 0, true, "zero or more"};
constexpr Kind duration_kind{"a duration", "70min or 1h10m", minute_units, "min", 0,
                             true,         "zero or more"};

std::string quoted(std::string_view text) {
    return "'" + std::string(text) + "'";
}

// The number at the start and the rest, blanks between them dropped.
struct Split {
    std::optional<double> number;
    std::string_view rest;
};
Split split_number(std::string_view text) {
    const std::size_t end = std::min(text.find_first_not_of("-0123456789."), text.size());
    return {parse_number(text.substr(0, end)), trimmed(text.substr(end))};
}

// The value, whatever its sign, or nothing where the text is not of this kind.
std::optional<double> read(std::string_view text, const Kind& kind) {
    const auto [number, rest] = split_number(trimmed(text));
    if (!number) return std::nullopt;
    const auto unit = std::ranges::find(kind.units, ascii_lower(rest), &Unit::name);
    if (unit == kind.units.end()) return std::nullopt;
    return (*number - unit->zero) * unit->numerator / unit->denominator;
}

// What the text was probably meant to be: letters that look like digits read as digits, a decimal
// comma as a point, the unit supplied.
std::optional<std::string> mended(std::string_view text, const Kind& kind) {
    std::string guess(trimmed(text));
    for (char& c : guess) {
        if (c == 'O' || c == 'o') c = '0';
        if (c == 'l' || c == 'I') c = '1';
        if (c == ',') c = '.';
    }
    if (parse_number(guess)) guess += kind.shown_unit;
    const auto value = read(guess, kind);
    if (!value || *value < kind.lowest) return std::nullopt;
    return guess;
}

[[noreturn]] void refuse(std::string_view text, const Kind& kind) {
    const auto guess = mended(text, kind);
    throw QuantityError(
        quoted(trimmed(text)) + " is not " + std::string(kind.noun) +
        (guess ? "; write it as " + *guess : "; write it like " + std::string(kind.example)));
}

double within(double value, std::string_view text, const Kind& kind) {
    if (value > kind.lowest || (kind.lowest_allowed && value == kind.lowest)) return value;
    throw QuantityError(quoted(trimmed(text)) + " is not " + std::string(kind.noun) +
                        ", which is " + std::string(kind.lowest_in_words) + "; write it like " +
                        std::string(kind.example));
}

double parse(std::string_view text, const Kind& kind) {
    const auto value = read(text, kind);
    if (!value) refuse(text, kind);
    return within(*value, text, kind);
}

// The two sides of `low..high`, or nothing where the dots are missing.
struct Sides {
    std::string_view low;
    std::string_view high;
};
std::optional<Sides> split_range(std::string_view text) {
    const std::size_t dots = text.find("..");
    if (dots == std::string_view::npos) return std::nullopt;
    return Sides{trimmed(text.substr(0, dots)), trimmed(text.substr(dots + 2))};
}

[[noreturn]] void refuse_range(std::string_view text, std::string_view why) {
    throw QuantityError(quoted(trimmed(text)) + " is not a range" + std::string(why) +
                        "; write it like 66..74, 66.. or ..74");
}

// `mark` may stand after each number.
Range parse_range_of(std::string_view text, std::string_view mark) {
    const auto sides = split_range(text);
    if (!sides || (sides->low.empty() && sides->high.empty())) refuse_range(text, "");
    const auto end = [&](std::string_view side) -> std::optional<double> {
        if (side.empty()) return std::nullopt;
        if (!mark.empty() && side.ends_with(mark)) side.remove_suffix(mark.size());
        const auto number = parse_number(trimmed(side));
        if (!number) refuse_range(text, "");
        return number;
    };
    const Range range{end(sides->low), end(sides->high)};
    if (range.low && range.high && *range.low > *range.high)
        refuse_range(text, ", for its low end is above its high end");
    return range;
}

}  // namespace

std::string in_unit(std::string_view text, std::string_view unit) {
    const std::string_view rest = trimmed(text);
    return std::string(rest).append(parse_number(rest) ? unit : "");
}

Grams parse_mass(std::string_view text) {
    return Grams(parse(text, mass_kind));
}

Millimetres parse_length(std::string_view text) {
    return Millimetres(parse(text, length_kind));
}

std::vector<Millimetres> parse_lengths(std::string_view text) {
    std::vector<Millimetres> lengths;
    for (std::size_t begin = 0; begin <= text.size();) {
        const std::size_t comma = std::min(text.find(',', begin), text.size());
        lengths.push_back(parse_length(text.substr(begin, comma - begin)));
        begin = comma + 1;
    }
    return lengths;
}

Celsius parse_temperature(std::string_view text) {
    return Celsius(parse(text, temperature_kind));
}

Minutes parse_duration(std::string_view text) {
    const std::size_t after_h = text.find_first_of("hH") + 1;  // 0: no hours
    if (after_h == 0) return Minutes(parse(text, duration_kind));
    Kind hours = duration_kind;
    hours.units = hour_units;
    const auto whole = read(text.substr(0, after_h), hours);
    const std::string_view rest = trimmed(text.substr(after_h));
    const auto part = rest.empty() ? 0.0 : read(rest, duration_kind);
    if (!whole || !part || *part < 0) refuse(text, duration_kind);
    return Minutes(within(*whole, text, duration_kind) + *part);
}

Millilitres parse_volume(std::string_view text) {
    return Millilitres(parse(text, volume_kind));
}

Fraction parse_percentage(std::string_view text) {
    return Fraction(parse(text, percent_kind));
}

Range parse_range(std::string_view text) {
    return parse_range_of(text, "");
}

FractionRange parse_percentage_range(std::string_view text) {
    const Range range = parse_range_of(text, "%");
    FractionRange fractions;
    if (range.low) fractions.low = fraction_from_percent(*range.low);
    if (range.high) fractions.high = fraction_from_percent(*range.high);
    return fractions;
}

std::string to_text(Grams mass) {
    return number_text(mass.count()) + "g";
}

std::string to_text(Millimetres length) {
    return number_text(length.count()) + "mm";
}

std::string to_text(Millilitres volume) {
    return number_text(volume.count()) + "ml";
}

std::string to_text(const std::vector<Millimetres>& lengths) {
    std::string text;
    for (const Millimetres length : lengths) {
        if (!text.empty()) text += ',';
        text += to_text(length);
    }
    return text;
}

std::string to_text(Celsius temperature) {
    return number_text(temperature.degrees()) + "C";
}

std::string to_text(Minutes duration) {
    // To the last printed decimal first, so that 59.99999999999 does not print as 60.
    const double total = std::round(duration.count() * 1e10) / 1e10;
    if (total < 60) return number_text(total) + "min";
    const double hours = std::floor(total / 60);
    const double rest = total - 60 * hours;
    std::string text = number_text(hours) + "h";
    if (rest > 0) text += number_text(rest) + "m";
    return text;
}

std::string to_text(Fraction fraction) {
    return number_text(percent(fraction)) + "%";
}

std::string to_text(const Range& range) {
    std::string text;
    if (range.low) text += number_text(*range.low);
    text += "..";
    if (range.high) text += number_text(*range.high);
    return text;
}

}  // namespace loafmark
