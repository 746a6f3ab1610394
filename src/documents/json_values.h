// How single values look in every JSON document of the program.
#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>

#include "analysis/measures.h"
#include "statistics/interval.h"

namespace loafmark::documents {

// Keeps keys in the order in which they are put in.
using Json = nlohmann::ordered_json;

// Rounded as rounded() does, whole numbers without a point; null for what is not finite.
[[nodiscard]] Json number(double value, int significant_digits = 9);
[[nodiscard]] Json number(const std::optional<double>& value);
[[nodiscard]] Json text(const std::optional<std::string>& value);

// {"value", "low", "high"}, with "loaf_low", "loaf_high" where they were had.
[[nodiscard]] Json estimate(const Estimate& estimate);
[[nodiscard]] Json estimate(const std::optional<Estimate>& estimate);
// {"value", "low", "high"}; low and high null without an interval.
[[nodiscard]] Json coefficient(const statistics::Coefficient& coefficient);

// Every photo measure of the catalogue, null where not had, and the kitchen measures that were had;
// dots of a key part nested objects.
[[nodiscard]] Json measures(const MeasureValues& values);

// The kitchen measures that were had, an estimate a key.
[[nodiscard]] Json weighed(const MeasureValues& values);

// The text of a document, indented, with a line's end; bytes that are not UTF-8 become U+FFFD.
[[nodiscard]] std::string printed(const Json& document);
[[nodiscard]] std::string printed_on_one_line(const Json& document);

}  // namespace loafmark::documents
