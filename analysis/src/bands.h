// Openness in bands along the base line: from base to crown, and the dense layer at the base.
#pragma once

#include <array>
#include <optional>

#include "base_frame.h"
#include "cell_map.h"

namespace loafmark::analysis {

inline constexpr int profile_bands = 10;

// Openness in ten bands of equal height between base line and crown, lowest first; a band with less
// than 0.5 % of the crumb in it has none.
using OpennessProfile = std::array<std::optional<double>, profile_bands>;
[[nodiscard]] OpennessProfile openness_profile(const CellMap& cells, const BaseFrame& frame);

// Height, in working units, of the lowest run of bands of 1 mm whose openness is under half the
// median over all bands; 0 where the lowest band is not. Bands of less than a tenth of the widest
// band's crumb are left out. Nothing in a crumb without cells.
[[nodiscard]] std::optional<double> dense_base(const CellMap& cells, const BaseFrame& frame);

}  // namespace loafmark::analysis
