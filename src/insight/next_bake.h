// What to bake a flour with next, for an outcome that the baker names: which water, how long a
// proof, whether with a long rest, how much of it in a blend.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "analysis/measures.h"
#include "insight/bake_values.h"
#include "journal/records.h"
#include "statistics/interval.h"

namespace loafmark::insight {

enum class Vary { water, proof, rest, share };
[[nodiscard]] std::string_view name_of(Vary vary);  // "water", "proof", "rest", "share"
[[nodiscard]] std::optional<Vary> vary_of_name(std::string_view name);

// What is wanted: as much of the measure as can be had, that value of it, or what the control has.
// None is assumed.
struct Goal {
    Measure measure = Measure::loaf_height;
    std::optional<double> value = {};  // in the measure's unit; none, and no control: the most
    std::vector<journal::BakeEntry> control = {};  // bakes of one recipe
    std::string control_name = {};                 // "wheat, 70 % water"
    [[nodiscard]] bool most() const { return !value && control.empty(); }
};

enum class Advice {
    found,           // the bakes propose it
    step,            // it still rises (or falls short) at the edge of what was tried: a step beyond
    repeat,          // bake that again: without repeats nothing can be trusted
    in_between,      // a place between those tried, which teaches most
    not_determined,  // the bakes do not pin it down; `value`, if any, is what would teach most
};

struct NextBake {
    Vary vary = Vary::water;
    Advice advice = Advice::not_determined;
    // Water in percent, proof in minutes, share in percent of all flour; of a rest nothing.
    std::optional<double> value;
    std::optional<statistics::Interval> interval;  // 95 %, of the proposed value
    int bakes = 0;                                 // that the advice rests on
    std::string sentence;
    std::vector<std::string> assumptions;
    std::vector<std::string> notes;  // of the readings
    // As the control: what the loaf there still differs by, in the measure's unit.
    std::optional<statistics::Coefficient> off;
    // Of a proof: minutes past the peak until the fitted loaf is 5 % lower.
    std::optional<statistics::Coefficient> falls_within;
    // Of a rest: what it did, in the measure's unit; and whether to take it, where that can be
    // told.
    std::optional<statistics::Coefficient> rest_did;
    std::optional<bool> take_rest;
};

// How far beyond what was tried advice goes, in percentage points of water and minutes of proof.
inline constexpr double step_beyond = 2;
inline constexpr double minutes_beyond = 15;
// What counts as a long rest: one step of rest, bulk fermentation or final proof of so many hours.
inline constexpr Hours long_rest{8};
// What a blend must keep of the control's measure, and the measures of which that can be asked:
// those of which more is wanted.
inline constexpr double share_kept = 0.9;
inline constexpr std::array<Measure, 2> kept_measures = {Measure::loaf_height,
                                                         Measure::specific_volume};

// Over bakes whose main flour this is (for a share: blends of it with the control's main flour),
// not set aside, with what is varied and the measure known. Water is never proposed beyond the
// range tried by more than step_beyond, nor wetter than the wettest bake that handled as tacky or
// easier; where no handling was noted, not wetter than was tried. Proof is for the most of a
// measure only, a share for a control and kept_measures only. Throws std::invalid_argument, with
// words for people, for what does not go together. `journal`: all bakes, for the pooled repeats
// that judge a rest.
[[nodiscard]] NextBake next_bake(const std::vector<journal::BakeEntry>& journal,
                                 journal::FlourId flour, const Goal& goal, Vary vary = Vary::water);

}  // namespace loafmark::insight
