// The measures that are weighed and ruled in the kitchen rather than read from a photo
// (docs/measurement.md, "Weighed and ruled").
#pragma once

#include <optional>

#include "journal/records.h"

namespace loafmark::journal {

// Porosity of crumb from its density wants the density of what its walls are made of, g/cm3; the
// range is what sources give.
inline constexpr double wall_density = 1.28, wall_density_low = 1.2, wall_density_high = 1.3;

// What the kitchen tells of a loaf besides.
struct Weighing {
    std::optional<Millilitres> tin_volume{};  // of the tin that it baked in
    Grams scale_step = Grams(1);              // what its scales show
};

// Fills in `weighed` of the loaf and of its slices, from what is known; the rest stays absent. What
// takes an area or a height from a photo wants a reading that is not poor; loaf measures leave out
// slices cut at an end. Where the volume was not measured, it is the mean crosswise cut face times
// the length: its interval reaches down for domed ends.
void weigh(LoafEntry& loaf, const Weighing& with = {});

}  // namespace loafmark::journal
