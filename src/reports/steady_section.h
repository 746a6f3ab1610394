#pragma once

#include <kainjow/mustache.hpp>
#include <vector>

#include "journal/records.h"

namespace loafmark::reports {

// How far repeats lie apart, and the loaf baked most often in order of date, for {{#steady}} of
// page.mustache.
[[nodiscard]] kainjow::mustache::data steady_data(const std::vector<journal::BakeEntry>& bakes);

}  // namespace loafmark::reports
