// A trial within the page: its loaves side by side by variant, what differs, how fair that is, and
// what its tasters said.
#pragma once

#include <kainjow/mustache.hpp>

#include "reports/report_page.h"

namespace loafmark::reports {

// What the template `trial` wants, one a trial that has a bake among those of the page.
[[nodiscard]] kainjow::mustache::data trials_data(const ReportInput& input);

// What the template `tasted` wants: lines down, groups of bakes across. False where nothing was
// tasted, or nothing may be told yet.
[[nodiscard]] kainjow::mustache::data tasted_data(
    const std::vector<journal::Tasting>& tastings,
    const std::vector<std::vector<journal::BakeId>>& groups, const std::vector<std::string>& names);

}  // namespace loafmark::reports
