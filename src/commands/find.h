// loafmark find: past bakes.
#pragma once

#include "commands/filter_options.h"

namespace loafmark::commands {

struct FindOptions {
    FilterOptions filter;
    std::optional<journal::Order> order;
    std::optional<int> limit;
    int page = 1;
    bool json = false;
    bool csv = false;
};

CLI::App& add_find(CLI::App& parent, FindOptions& options);

[[nodiscard]] Outcome run(const FindOptions&, const journal::Journal&, const Context&);

}  // namespace loafmark::commands
