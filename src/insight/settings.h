// The settings of a trial, looked up in a bake.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "journal/records.h"

namespace loafmark::insight {

struct Setting {
    std::string text;              // as people read it: "72 %", "small tin"
    std::optional<double> number;  // where it is one, in the unit of its text
    bool operator==(const Setting&) const = default;
};

// What a bake had, by the names of journal::setting_words. Nothing where it was not noted. Of
// several loaves: what they have in common, as numbers their mean; loaves that differ in a word are
// listed with commas. Throws std::invalid_argument for no such setting.
[[nodiscard]] std::optional<Setting> setting_of(const journal::BakeEntry& bake,
                                                std::string_view name);

// Whether two differ by more than scales, clocks and thermometers of a kitchen do by themselves:
// half a point of water, 0.1 points of salt, 5 % of leaven, 2 % of dough, 1.5 degrees (oven: 5),
// a tenth of a time, at least 2 minutes.
[[nodiscard]] bool differ(const Setting& a, const Setting& b, std::string_view name);

}  // namespace loafmark::insight
