// Which water to bake a flour with next, for an outcome that the baker names.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "analysis/measures.h"
#include "insight/bake_values.h"
#include "journal/records.h"
#include "statistics/interval.h"

namespace loafmark::insight {

// What is wanted: as much of the measure as can be had, or that value of it. None is assumed.
struct Goal {
    Measure measure = Measure::loaf_height;
    std::optional<double> value;  // in the measure's unit; none: the most
};

enum class Advice {
    water,           // bake with this water: the fitted curve or line proposes it
    step,            // it still rises (or falls short) at the edge of what was tried: a step beyond
    repeat,          // bake that water again: without repeats no curve can be trusted
    in_between,      // a water between those tried, which teaches most
    not_determined,  // the bakes do not pin it down; `hydration` is what would teach most
};

struct NextBake {
    Advice advice = Advice::in_between;
    std::optional<double> hydration;               // percent
    std::optional<statistics::Interval> interval;  // Fieller's, 95 %, of the proposed water
    int bakes = 0;                                 // of the flour, that the advice rests on
    std::string sentence;
    std::vector<std::string> assumptions;
};

// How far beyond what was tried advice goes, in percentage points of water.
inline constexpr double step_beyond = 2;

// Over bakes whose main flour this is, not set aside, with water and measure known. Never beyond
// the range tried by more than step_beyond, and never wetter than the wettest bake that handled as
// tacky or easier; where no handling was noted, not wetter than was tried.
[[nodiscard]] NextBake next_bake(const std::vector<journal::BakeEntry>& bakes,
                                 journal::FlourId flour, const Goal& goal);

}  // namespace loafmark::insight
