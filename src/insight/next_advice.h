// What the kinds of advice share; only for next_*.cpp.
#pragma once

#include <string>
#include <vector>

#include "insight/next_bake.h"
#include "insight/plain_numbers.h"

namespace loafmark::insight {

// One a way to vary; `bakes`: none set aside.
[[nodiscard]] NextBake next_water(const std::vector<journal::BakeEntry>& bakes,
                                  journal::FlourId flour, const Goal& goal);
[[nodiscard]] NextBake next_proof(const std::vector<journal::BakeEntry>& bakes,
                                  journal::FlourId flour, const Goal& goal);
[[nodiscard]] NextBake next_rest(const std::vector<journal::BakeEntry>& bakes,
                                 journal::FlourId flour, const Goal& goal);
[[nodiscard]] NextBake next_share(const std::vector<journal::BakeEntry>& bakes,
                                  journal::FlourId flour, const Goal& goal);

[[nodiscard]] inline std::string percent_text(double percent) {
    return fixed_text(percent, 1) + " %";
}
// " (from 5 bakes)"
[[nodiscard]] inline std::string from_bakes(int bakes) {
    return " (from " + std::to_string(bakes) + (bakes == 1 ? " bake)" : " bakes)");
}

// What the goal is held against: a value, or a mean over the control's bakes that have it.
struct Target {
    double value = 0;
    int values = 0;  // that it is the mean of; 0: exact
};
// Nothing for the most, or a control without the measure.
[[nodiscard]] std::optional<Target> target_of(const Goal& goal);

// "loaf height of 95.0 mm", "the loaf height of wheat, 70 % water (82.1 mm)"
[[nodiscard]] std::string wanted_words(const Goal& goal, const Target& target);

}  // namespace loafmark::insight
