// From what the analysis measured to what the journal keeps.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "analysis/measure.h"
#include "journal/drafts.h"

namespace loafmark::commands {

// What the baker said about slices.
// Pieces pressed out of the crumb with a round cutter.
struct CrumbPlugs {
    int count = 1;
    Millimetres diameter;
};

struct SliceFacts {
    std::optional<std::string> place;  // of journal::slice_places
    std::optional<std::string> cut;    // of journal::cut_directions
    std::vector<Millimetres> thickness;
    std::optional<Grams> mass;
    std::optional<Hours> since_oven;
    std::optional<Grams> crumb_mass;
    std::optional<CrumbPlugs> plugs;  // what crumb_mass is of; none: all crumb of the slice
};

// The options of a measurement that is to be filed: with the pictures that the journal keeps.
[[nodiscard]] analysis::MeasureOptions with_kept_pictures(analysis::MeasureOptions options);

// The reading of slice `index` (0-based), its pictures encoded as JPEG.
[[nodiscard]] journal::NewReading reading_of(const analysis::Measurement& measurement,
                                             std::size_t index);

[[nodiscard]] journal::NewSlice slice_of(const analysis::Measurement& measurement,
                                         std::size_t index, journal::LoafId loaf,
                                         const SliceFacts& facts);

// Each pixel the mean of `by` times `by`; what does not fill one at the right and lower edge is
// left out. A picture smaller than that stays as it is.
[[nodiscard]] Picture shrunk(const Picture& picture, int by);

}  // namespace loafmark::commands
