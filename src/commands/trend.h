// loafmark trend MEASURE: how a measure goes with water, time or share of flour.
#pragma once

#include <optional>
#include <string>

#include "commands/filter_options.h"
#include "insight/trend.h"

namespace loafmark::commands {

struct TrendOptions {
    Measure measure = Measure::openness;
    insight::Against against = insight::Against::hydration;
    FilterOptions filter;  // its flour: bakes whose main flour it is
    insight::Split split = insight::Split::flour;
    bool with_ends = false;  // slices cut at an end of the loaf count too
    bool json = false;
    bool csv = false;
    std::optional<std::string> svg;  // file
};

CLI::App& add_trend(CLI::App& parent, TrendOptions& options);

[[nodiscard]] Outcome run(const TrendOptions&, const journal::Journal&, const Context&);

}  // namespace loafmark::commands
