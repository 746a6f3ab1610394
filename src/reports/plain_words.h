// Dates, numbers and warnings as a baker reads them.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "analysis/measures.h"
#include "insight/plain_numbers.h"
#include "journal/records.h"

namespace loafmark::reports {

// 1 March 2026
[[nodiscard]] std::string long_date(journal::Date date);
// 70 %, 2.5 %: at most one decimal.
[[nodiscard]] std::string percent_text(Fraction fraction);
// mm2, cm2 and 1/cm2 with raised figures.
[[nodiscard]] std::string raised(std::string_view unit_or_name);
// 74.2 mm
[[nodiscard]] std::string value_text(double value, const MeasureInfo& info);
// 72.9 and 75.6 with an en dash between, for tables
[[nodiscard]] std::string span_text(double low, double high, int decimals);
// Begun with a capital, ended with a full stop.
[[nodiscard]] std::string as_sentence(std::string text);
using insight::counted;

// "Dark rye 60 %, wheat 40 %"; "flour not noted" for none.
[[nodiscard]] std::string flours_text(const std::vector<journal::FlourShare>& flours);

// What a warning's code means for the slice; nothing for what needs no word to a reader of the
// page.
[[nodiscard]] std::optional<std::string> warning_words(const std::string& code);

}  // namespace loafmark::reports
