// Slow drift: the loaf baked again and again, in order of date.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "analysis/measures.h"
#include "arithmetic/dates.h"
#include "journal/records.h"
#include "statistics/control_chart.h"

namespace loafmark::insight {

struct DriftPoint {
    journal::BakeId bake;
    Date date;
    double value = 0;  // mean of the bake, in the measure's unit
};

struct Drift {
    std::string recipe;                             // in words
    std::vector<DriftPoint> points;                 // by date
    std::optional<statistics::ControlChart> chart;  // absent: too few bakes, or all alike
    std::string sentence;
};

// The recipe (recipe_of) with the most bakes that have the measure and are not set aside; of equals
// the one baked last. Nothing where none was baked twice.
[[nodiscard]] std::optional<Drift> find_drift(const std::vector<journal::BakeEntry>& bakes,
                                              Measure measure);

}  // namespace loafmark::insight
