// Planning a trial: how many repeats a difference wants, and the bake days that give them.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "analysis/measures.h"
#include "insight/bake_values.h"
#include "journal/records.h"

namespace loafmark::insight {

// How far two doughs of one recipe on one day lie apart, and how that is known.
struct Scatter {
    double sd = 0;               // in the measure's unit
    int degrees_of_freedom = 0;  // of the journal's own; 0: not from the journal
    std::string source;          // "this journal's repeats, 5 df", "typical..."
};

// The journal's own where its repeats have at least 3 degrees of freedom (of one day, else over
// days); else a typical 5 % of the journal's mean of the measure: Larmour 1941, loaf volumes of 17
// flours at 5 levels of bromate, residual SD 41.4 of a mean of 868.6 ml, 64 df; of other measures
// common practice, no source. Nothing where the journal has no value of the measure.
[[nodiscard]] std::optional<Scatter> scatter_of(const std::vector<journal::BakeEntry>& bakes,
                                                Measure measure);

struct PlanWish {
    int variants = 2;      // the control counted; 2 to 20
    int doughs_a_day = 3;  // 2 to 40
    std::vector<std::string> oven_places;
    double difference = 0;       // that is to be seen, in the measure's unit; above 0
    double sd = 0;               // above 0
    double chance = 0.8;         // wanted, 0.05 to 0.99
    std::optional<int> repeats;  // of each variant; left out: as many as it takes
    std::uint64_t seed = 1;
};

// Doughs of one day in the order of mixing.
struct PlannedDough {
    int variant = 0;  // 0: the control
    std::string oven_place;
    bool operator==(const PlannedDough&) const = default;
};

struct Plan {
    int repeats = 0;  // of each variant; the control has at least as many
    std::vector<std::vector<PlannedDough>> days;
    int degrees_of_freedom = 0;
    double chance = 0;    // of seeing the wished difference, all comparisons together
    double seen = 0;      // the difference that is seen with the wished chance
    bool enough = false;  // chance >= the wished one
};

// More repeats of each than this are no plan for a kitchen.
inline constexpr int most_repeats = 30;

// Every day holds the control; variants come equally often, at least two days. Order and oven
// places are shuffled by the seed, the same in every run. Differences will be judged within days,
// against the control, all together (Dunnett), at 5 %; the chance is that of the least favoured
// variant. Where even most_repeats are too few, the plan of most_repeats with `enough` false.
// Throws std::invalid_argument for a wish outside the limits above.
[[nodiscard]] Plan plan_trial(const PlanWish& wish);

// "With 2 bakes of each you would see 14.0 mm, not 8.0 mm" for repeats from 2 on, as a table.
struct PlanRow {
    int repeats = 0;
    int days = 0;
    int doughs = 0;
    double seen = 0;
    double chance = 0;
};
[[nodiscard]] std::vector<PlanRow> plan_rows(const PlanWish& wish, int up_to);

}  // namespace loafmark::insight
