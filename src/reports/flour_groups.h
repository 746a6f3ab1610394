// Bakes by their main flour, in one order for all charts of a page, so that a flour keeps its
// colour and its shape down the page.
#pragma once

#include <string>
#include <vector>

#include "journal/records.h"

namespace loafmark::reports {

struct FlourGroup {
    std::string name;
    std::vector<const journal::BakeEntry*> bakes;  // in the order given
};

// More than these in one chart cannot be told apart.
inline constexpr std::size_t most_flours = 10;

// Those with most bakes first, then by name; bakes set aside are left out. Beyond `most_flours` the
// rest is one group, "7 other flours". Lives as long as `bakes`.
[[nodiscard]] std::vector<FlourGroup> flour_groups(const std::vector<journal::BakeEntry>& bakes);

}  // namespace loafmark::reports
