// loafmark compare BAKE BAKE...: a control against variants.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "commands/context.h"
#include "journal/journal.h"

namespace CLI {
class App;
}

namespace loafmark::commands {

struct CompareOptions {
    std::vector<std::string> bakes;    // the control first
    std::optional<std::string> trial;  // instead of bakes
    bool with_repeats = false;         // every bake of the named bakes' recipes takes part
    bool with_ends = false;
    bool json = false;
    std::optional<std::string> line_up;  // a PNG or SVG file
};

CLI::App& add_compare(CLI::App& parent, CompareOptions& options);

[[nodiscard]] Outcome run(const CompareOptions&, const journal::Journal&, const Context&);

}  // namespace loafmark::commands
