// Which bakes a trend is made of, and which are left out of it.
#pragma once

#include <vector>

#include "insight/trend.h"

namespace loafmark::insight {

// Fills groups, points, notes and the counts of what is left out, in their order.
void collect_points(const std::vector<journal::BakeEntry>& bakes, Trend& trend);
void collect_points(const journal::MeasuredBakes& bakes, Trend& trend);

}  // namespace loafmark::insight
