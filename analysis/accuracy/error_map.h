// Where the cells that were found differ from the true ones.
#pragma once

#include <cstdint>
#include <vector>

#include "analysis/measure.h"

namespace loafmark::accuracy {

// The slice in grey, one pixel a map pixel: blue where both have a cell, vermilion where only the
// truth has one (missed), yellow where only the analysis has (no cell), black where a cell of one
// borders another of the same kind in one of both only: parted or joined wrongly. Both are of cells
// at or above the limit, in the crumb.
[[nodiscard]] Picture error_map(const analysis::SliceMaps& maps,
                                const std::vector<std::uint16_t>& truth,
                                const std::vector<std::uint16_t>& found);

}  // namespace loafmark::accuracy
