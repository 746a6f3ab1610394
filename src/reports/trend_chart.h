#pragma once

#include <string>

#include "charts/chart.h"
#include "insight/trend.h"

namespace loafmark::reports {

// The trend's sentence and, where the chart leaves flours out, how many it shows.
[[nodiscard]] std::string trend_words(const insight::Trend& trend);

// The chart of a trend: a dot a bake, marked by flour, with the fitted lines; of many flours those
// with most bakes (flour_groups.h). In a page each dot leads to its bake.
[[nodiscard]] std::string trend_svg(const insight::Trend& trend,
                                    charts::Embedding embedding = charts::Embedding::standalone);

}  // namespace loafmark::reports
