// loafmark sheet FLOUR: one page about a flour, to hand out; of a trial, about its flours.
#pragma once

#include <optional>
#include <string>

#include "commands/context.h"
#include "journal/journal.h"

namespace CLI {
class App;
}

namespace loafmark::commands {

struct SheetOptions {
    std::optional<std::string> flour;
    std::optional<std::string> trial;
    std::string output;
};

CLI::App& add_sheet(CLI::App& parent, SheetOptions& options);
[[nodiscard]] Outcome run(const SheetOptions&, const journal::Journal&, const Context&);

}  // namespace loafmark::commands
