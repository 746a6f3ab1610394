#pragma once

#include <kainjow/mustache.hpp>
#include <vector>

#include "journal/records.h"

namespace loafmark::reports {

// Openness, coarseness and loaf height against water, for {{#trends}} of page.mustache.
[[nodiscard]] kainjow::mustache::data trends_data(const std::vector<journal::BakeEntry>& bakes);

}  // namespace loafmark::reports
