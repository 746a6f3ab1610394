// A new bag of the control loaf's flour, held against the bags before it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "analysis/measures.h"
#include "insight/bake_values.h"
#include "journal/records.h"
#include "statistics/interval.h"

namespace loafmark::insight {

enum class BagVerdict {
    as_before,    // where it was to be expected, and a change worth notice would have shown
    different,    // outside what was to be expected
    cannot_tell,  // too few bakes before, or they lie so far apart that little would show
};
[[nodiscard]] std::string_view name_of(BagVerdict verdict);  // "as before", "different"...

struct NewBag {
    std::string recipe;  // in words
    journal::BagId bag;
    double value = 0;  // mean over the days that it was baked from, in the measure's unit
    int days = 0;
    double before = 0;  // the same of the bags before it
    int days_before = 0;
    std::optional<statistics::Interval> expected;  // 95 %, for a mean over so many days
    BagVerdict verdict = BagVerdict::cannot_tell;
    std::string sentence;
};

// A change of this share of the measure is worth a baker's notice; common practice, no source.
inline constexpr double change_worth_notice = 0.10;

// The bag that the control loaf's main flour came from at its last bake, against all earlier bakes
// of that loaf from other bags, a value a day. Bakes whose bag was not noted, or that drew on two
// bags of the flour, say nothing. Nothing where there are no two bags.
[[nodiscard]] std::optional<NewBag> judge_new_bag(const std::vector<journal::BakeEntry>& bakes,
                                                  Measure measure,
                                                  EndSlices ends = EndSlices::left_out);

}  // namespace loafmark::insight
