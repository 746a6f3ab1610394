// The measures that are weighed and ruled in the kitchen rather than read from a photo
// (docs/measurement.md, "Weighed and ruled").
#pragma once

#include <optional>

#include "journal/records.h"

namespace loafmark::journal {

// Porosity of crumb from its density wants the density of what its walls are made of, g/cm3; the
// range is what sources give.
inline constexpr double wall_density = 1.28, wall_density_low = 1.2, wall_density_high = 1.3;

// Fills in `weighed` of the loaf and of its slices, from what is known; the rest stays absent.
// Where the volume was not measured, it is the mean cut face times the length, which is too much
// for a loaf with domed ends. `tin_volume`: of the tin that it baked in.
void weigh(LoafEntry& loaf, std::optional<Millilitres> tin_volume);

}  // namespace loafmark::journal
