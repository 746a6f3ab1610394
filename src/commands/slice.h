// loafmark slice add|show|remeasure: photos of slices, filed under their bakes.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "analysis/measure.h"
#include "commands/context.h"
#include "commands/filing.h"
#include "commands/photos.h"
#include "journal/journal.h"

namespace CLI {
class App;
}

namespace loafmark::commands {

struct SliceAddOptions {
    std::string bake;  // with `bakes_of_slices` it may be a photo
    std::vector<std::string> photos;
    std::vector<std::string> bakes_of_slices;  // of every photo, left to right, top to bottom
    int loaf = 1;
    SliceFacts facts;  // its thickness is that of `analysis`; no since_oven: the kitchen's habit
    analysis::MeasureOptions analysis;  // no thickness: the kitchen's usual one
};
struct SliceShowOptions {
    std::string bake;
    bool json = false;
};
// Just one of `bake` and `all`.
struct SliceRemeasureOptions {
    std::optional<std::string> bake;
    bool all = false;
    analysis::MeasureOptions analysis;  // its thickness is taken from the journal
};

CLI::App& add_slice(CLI::App& parent);
CLI::App& add_slice_add(CLI::App& slice, SliceAddOptions& options);
CLI::App& add_slice_show(CLI::App& slice, SliceShowOptions& options);
CLI::App& add_slice_remeasure(CLI::App& slice, SliceRemeasureOptions& options);

// Each photo is filed wholly or not at all, with all its slices. One that cannot be is said on
// stderr and makes the outcome incomplete; the others are filed all the same.
[[nodiscard]] Outcome run(const SliceAddOptions&, journal::Journal&, const Context&);
[[nodiscard]] Outcome run(const SliceAddOptions&, journal::Journal&, const Context&,
                          const MeasurePhoto& measure);
[[nodiscard]] Outcome run(const SliceShowOptions&, const journal::Journal&, const Context&);
// A new reading each, from the photos that the journal keeps; the old ones stay.
[[nodiscard]] Outcome run(const SliceRemeasureOptions&, journal::Journal&, const Context&);
[[nodiscard]] Outcome run(const SliceRemeasureOptions&, journal::Journal&, const Context&,
                          const MeasurePhoto& measure);

}  // namespace loafmark::commands
