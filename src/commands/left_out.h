// How many bakes an answer does without because they are set aside or in the bin.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "journal/journal.h"

namespace loafmark::commands {

// "left out: 1 bake set aside, 2 in the bin", of those that would matter to the answer; "" where
// there is none. `bakes`: those not in the bin.
[[nodiscard]] std::string left_out_text(
    const std::vector<journal::BakeEntry>& bakes, const journal::Journal& journal,
    const std::function<bool(const journal::BakeEntry&)>& matters);

}  // namespace loafmark::commands
