// What makes two bakes repeats of each other, and what tells two bakes apart.
#pragma once

#include <compare>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "journal/records.h"

namespace loafmark::insight {

// Two bakes with equal recipes are repeats: one version of a formula, the same flours in whole
// percents, the water equal to half a percentage point, as mixed.
struct Recipe {
    std::int64_t formula_version = 0;
    int water_halves = -1;  // half percentage points; -1: not known
    std::vector<std::pair<std::int64_t, int>> flour_shares;  // by flour, whole percents
    auto operator<=>(const Recipe&) const = default;
};
[[nodiscard]] Recipe recipe_of(const journal::BakeEntry& bake);

// "Emmer wholemeal, 70 % water"; the flours with their shares where there are several.
[[nodiscard]] std::string recipe_words(const journal::BakeEntry& bake);

// What differs between two bakes of those things that may change a loaf, in words: "flour (emmer,
// wheat)", "water (70.0 %, 74.0 %)", "dough mass (900 g, 1000 g)". Masses and temperatures count
// from 2 % and 1.5 degrees on. What is unknown of either is passed over.
[[nodiscard]] std::vector<std::string> differences(const journal::BakeEntry& a,
                                                   const journal::BakeEntry& b);

// Doughs that differ by less of their mass are taken to be of one.
inline constexpr double mass_that_matters = 0.02;

// Dough of one loaf, as scaled; where loaves differ, their mean. Nothing where none was noted.
[[nodiscard]] std::optional<Grams> loaf_dough(const journal::BakeEntry& bake);

}  // namespace loafmark::insight
