// How far repeats of one recipe lie apart in this journal: what every comparison of single bakes
// rests on.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "analysis/measures.h"
#include "insight/bake_values.h"
#include "journal/records.h"
#include "statistics/nested.h"
#include "statistics/repeatability.h"

namespace loafmark::insight {

// Scatter of one kind, "between days", as a standard deviation in the measure's unit.
struct ScatterLayer {
    std::string name;
    int degrees_of_freedom = 0;
    std::optional<double> sd;  // absent where nothing of the kind was repeated
    std::optional<statistics::Interval> interval;
    int holds_inner = 0;      // so many kinds within were never repeated and are part of this one
    bool below_zero = false;  // the estimate of the variance was negative, shown as 0
    std::string why_none;     // what was never repeated; empty where there is an sd
    std::vector<std::string> held_within;  // those kinds in short: "loaves", "slices"
};

struct Steadiness {
    Measure measure = Measure::openness;
    // Doughs of one recipe mixed on one day.
    std::optional<statistics::Repeatability> same_day;
    // Doughs of one recipe on different days, one a day; what a day brings is in it.
    std::optional<statistics::Repeatability> any_day;
    // Between days, between doughs of a day, between loaves of a dough, between slices of a loaf,
    // within recipes.
    std::vector<ScatterLayer> layers;
};

// Over all bakes that are not set aside; repeats are bakes of equal recipe_of(). Slices are
// averaged within their bake, but for the layers. Loaves of a dough that were proved otherwise than
// its first are no repeats and stay out of the layers.
[[nodiscard]] Steadiness steadiness_of(const std::vector<journal::BakeEntry>& bakes,
                                       Measure measure, EndSlices ends = EndSlices::left_out);

// "Two single bakes of one recipe, on different days, differ by up to 6.1 mm by chance (95 %, from
// 5 repeats, 5 df)"; or what to bake first. `same_day`: of bakes on one day.
[[nodiscard]] std::string steadiness_sentence(const Steadiness& steadiness, bool same_day);

// The repeats that judge bakes of one day or of different days: the matching ones where they have
// least_degrees_to_judge, for one day else those over days, which are the wider. Nothing where
// neither has.
[[nodiscard]] std::optional<statistics::Repeatability> judge_of(const Steadiness& steadiness,
                                                                bool same_day);

}  // namespace loafmark::insight
