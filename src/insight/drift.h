// Slow drift: the loaf baked again and again, in order of date.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "analysis/measures.h"
#include "insight/control_loaf.h"
#include "journal/records.h"
#include "statistics/control_chart.h"

namespace loafmark::insight {

struct Drift {
    std::string recipe;                             // in words
    int bakes = 0;                                  // of it
    std::vector<ControlDay> points;                 // by date, a day each
    std::optional<statistics::ControlChart> chart;  // absent: too few days, or all alike
    std::string sentence;
};

// Of the control loaf, day by day: the limits come from its own scatter from one day to the next.
// Nothing where it was not baked twice.
[[nodiscard]] std::optional<Drift> find_drift(const std::vector<journal::BakeEntry>& bakes,
                                              Measure measure,
                                              EndSlices ends = EndSlices::left_out);

}  // namespace loafmark::insight
