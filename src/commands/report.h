// loafmark report: the journal as one page.
#pragma once

#include <string>

#include "commands/filter_options.h"

namespace loafmark::commands {

struct ReportOptions {
    std::string output;
    std::string title = "Bake journal";
    FilterOptions filter;
};

CLI::App& add_report(CLI::App& parent, ReportOptions& options);

// Writes the file whole or not at all.
[[nodiscard]] Outcome run(const ReportOptions&, const journal::Journal&, const Context&);

}  // namespace loafmark::commands
