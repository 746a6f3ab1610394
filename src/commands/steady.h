// loafmark steady [MEASURE]: how far repeats lie apart, and whether something has moved.
#pragma once

#include "commands/filter_options.h"

namespace loafmark::commands {

struct SteadyOptions {
    Measure measure = Measure::loaf_height;
    FilterOptions filter;
    bool with_ends = false;
    bool json = false;
};

CLI::App& add_steady(CLI::App& parent, SteadyOptions& options);

[[nodiscard]] Outcome run(const SteadyOptions&, const journal::Journal&, const Context&);

}  // namespace loafmark::commands
