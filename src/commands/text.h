// Quantities as people read them in tables and sentences; a dash where there is none.
#pragma once

#include <optional>
#include <string>

#include "analysis/units.h"
#include "insight/plain_numbers.h"
#include "journal/records.h"

namespace loafmark::commands {

inline constexpr const char* nothing_text = "-";

// At most `decimals` decimals, zeros at the end left out: 68, 33.3.
[[nodiscard]] std::string number_text(double number, int decimals = 1);

using insight::counted;

[[nodiscard]] std::string percent_text(std::optional<Fraction> fraction, int decimals = 1);  // 68 %
[[nodiscard]] std::string grams_text(std::optional<Grams> mass, int decimals = 1);  // 900 g
[[nodiscard]] std::string hours_text(Hours hours);  // as one would type it: 1h30m
// The scale on which a kitchen reads temperatures, and a temperature or a difference of two on it.
enum class Degrees { celsius, fahrenheit };
[[nodiscard]] Degrees degrees_of(const journal::KitchenFacts& facts);
[[nodiscard]] std::string temperature_text(std::optional<Celsius> temperature,
                                           Degrees degrees);              // 24.5 °C, 76.1 °F
[[nodiscard]] std::string kelvins_text(double kelvins, Degrees degrees);  // 4 K, 7.2 °F
[[nodiscard]] std::string or_nothing(const std::optional<std::string>& text);

// "Wheat 70 %, Emmer 30 %"; the share is left out where there is one flour only.
[[nodiscard]] std::string flours_text(const std::vector<journal::FlourShare>& flours);

// As options and documents write it: pack_eu, pack_us, mill_14_percent_moisture, dry.
[[nodiscard]] std::string_view basis_name(journal::ProteinBasis basis);
// flour, water, salt, leaven, other.
[[nodiscard]] std::string_view kind_name(IngredientKind kind);

}  // namespace loafmark::commands
