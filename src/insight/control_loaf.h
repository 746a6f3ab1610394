// The loaf that is baked again and again, by which kitchen, starter and flour are watched.
#pragma once

#include <optional>
#include <vector>

#include "analysis/measures.h"
#include "arithmetic/dates.h"
#include "insight/bake_values.h"
#include "journal/records.h"

namespace loafmark::insight {

struct ControlBake {
    const journal::BakeEntry* entry = nullptr;  // lives as long as the bakes it came from
    double value = 0;                           // mean of the bake, in the measure's unit
};

// The recipe (recipe_of) with the most bakes that have the measure and are not set aside, by date;
// of equals the one baked last. Empty where there is none.
[[nodiscard]] std::vector<ControlBake> control_loaf(const std::vector<journal::BakeEntry>& bakes,
                                                    Measure measure,
                                                    EndSlices ends = EndSlices::left_out);

// One day of it: bakes of one day share what the day brings, so that they count once.
struct ControlDay {
    Date date;
    journal::BakeId bake;  // the first of the day
    double value = 0;      // mean over the day's bakes
    int bakes = 0;
};
[[nodiscard]] std::vector<ControlDay> by_day(const std::vector<ControlBake>& bakes);

}  // namespace loafmark::insight
