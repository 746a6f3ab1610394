#pragma once

#include <string>

#include "charts/chart.h"
#include "insight/trend.h"

namespace loafmark::reports {

// The chart of a trend: a dot a bake, marked by flour, with the fitted lines.
[[nodiscard]] std::string trend_svg(const insight::Trend& trend,
                                    charts::Embedding embedding = charts::Embedding::standalone);

}  // namespace loafmark::reports
