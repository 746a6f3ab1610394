#pragma once

#include <kainjow/mustache.hpp>
#include <optional>
#include <vector>

#include "journal/records.h"

namespace loafmark::reports {

// The crumb map of page.mustache: coarseness across, openness up, a mark a slice with its intervals
// that leads to its bake, with the numbers behind it. Slices without a scale have no coarseness and
// no mark; poor readings and bakes set aside have none either.
void set_crumb_map(kainjow::mustache::data& page, const std::vector<journal::BakeEntry>& bakes);

[[nodiscard]] bool is_on_the_map(const journal::BakeEntry& bake, const journal::SliceEntry& slice);

// Where a slice's mark is found, "mark-12".
[[nodiscard]] std::string mark_id(const journal::SliceEntry& slice);

}  // namespace loafmark::reports
