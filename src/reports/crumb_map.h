#pragma once

#include <kainjow/mustache.hpp>
#include <vector>

#include "journal/records.h"

namespace loafmark::reports {

// The crumb map of page.mustache: coarseness across, openness up, a dot a slice that leads to its
// bake, with the numbers behind it. Slices without a scale have no coarseness and no dot.
void set_crumb_map(kainjow::mustache::data& page, const std::vector<journal::BakeEntry>& bakes);

}  // namespace loafmark::reports
