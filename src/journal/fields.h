// The fields of find, and where in the database each stands.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <string_view>

#include "journal/filter.h"

namespace loafmark::journal {

// A field stands in a column of these: bake and bake_day; bake_figures, called figures; loaf;
// slice.
enum class Level { bake, figures, loaf, slice };

struct FieldSource {
    Field field;
    Level level;
    const char* sql;
};

[[nodiscard]] std::span<const FieldSource> field_sources();
// Whether readings hold a measure of that key; what is weighed in the kitchen is a field.
[[nodiscard]] bool measure_in_readings(std::string_view key);
// Nothing for another key.
[[nodiscard]] const FieldSource* source_of(std::string_view key);

}  // namespace loafmark::journal
