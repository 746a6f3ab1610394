// Openings of at least a quarter of the loaf's width: crust that lifted, and tunnels.
#pragma once

#include <optional>

#include "base_frame.h"
#include "cell_map.h"

namespace loafmark::analysis {

struct WideOpening {
    double width = 0, height = 0;  // extent along the base line and square to it, working units
    double share_of_width = 0;     // of the loaf's
};

struct WideOpenings {
    std::optional<WideOpening> under_crust, elsewhere;  // the widest of each
};

// A roof is the top crust where, over half the opening's width or more, at most 2 mm of crumb stand
// between the opening and the crumb's upper edge. Nothing where the loaf's width is not known.
[[nodiscard]] WideOpenings wide_openings(const CellMap& cells, const BaseFrame& frame);

}  // namespace loafmark::analysis
