// Test lines over a true section, pixel by pixel.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "analysis/picture.h"

namespace loafmark::accuracy {

struct OpenSection {
    const LabelMap& crumb;                     // not 0: crumb
    const std::vector<std::uint16_t>& labels;  // of cells, 0 in bread
    const std::vector<std::uint8_t>& open;     // 1 in cells that count
    double mm_per_pixel = 0.1;
};

// Length in bread over half the changes from bread to cell; mm. Every line that passes through
// pixels' middles along the rows, the columns and both diagonals, looked at in those middles alone
// (Crofton's formula on a lattice; Serra, Image Analysis and Mathematical Morphology, 1982): lines
// of other directions cross the staircases of what they graze, 7 % too often at 22.5 degrees. From
// one cell straight into the next are two changes.
[[nodiscard]] std::optional<double> mean_free_path(const OpenSection& section);

}  // namespace loafmark::accuracy
