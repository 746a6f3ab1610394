// What a trial has shown so far of its own design: which comparisons are fair, what drifted, what
// would part two causes, and where repeats are missing. What the loaves say is compare()'s.
#pragma once

#include <string>
#include <vector>

#include "insight/compare.h"
#include "journal/trial_records.h"

namespace loafmark::insight {

struct VariantState {
    std::string name;
    std::string with;  // what was fitted for it: "water 72.0 %"; "" for nothing
    int bakes = 0;
    int days = 0;
    int days_with_control = 0;  // on which the control was baked too
    bool fair = false;          // nothing but the factor, and what was fitted or left free, differs
    std::string sentence;       // "fair: 2 bakes on 2 days, each beside the control"
};

struct TrialState {
    std::vector<VariantState> variants;  // the control first
    std::vector<std::string> drifts;     // held settings that moved or were not noted
    std::vector<std::string> to_part;    // what to bake to part the factor from what moved with it
    std::vector<std::string> repeats;    // where they are missing
    int degrees_of_freedom = 0;  // that are left for chance, within days, over the trial's bakes
};

// `bakes`: of the journal, those of the trial among them. Bakes set aside do not count.
[[nodiscard]] TrialState state_of(const journal::Trial& trial,
                                  const std::vector<journal::BakeEntry>& bakes);

// The trial's bakes by variant, the control first; those set aside and variants without a bake left
// out. `places`, where given, gets each contender's number among the variants.
[[nodiscard]] std::vector<Contender> contenders_of(const journal::Trial& trial,
                                                   const std::vector<journal::BakeEntry>& bakes,
                                                   std::vector<int>* places = nullptr);

// The control against the variants, and what the trial's own settings say of how fair that is in
// the place of what compare() finds to differ: a setting that was fitted or left free is no fault.
// Throws std::invalid_argument with words for people where no variant or no control was baked.
[[nodiscard]] Comparison compare_trial(const journal::Trial& trial,
                                       const std::vector<journal::BakeEntry>& journal,
                                       EndSlices ends = EndSlices::left_out);

}  // namespace loafmark::insight
