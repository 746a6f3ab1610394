// loafmark undo, loafmark redo.
#pragma once

#include "commands/context.h"
#include "journal/journal.h"

namespace CLI {
class App;
}

namespace loafmark::commands {

struct UndoOptions {
    bool list = false;
};
struct RedoOptions {};

CLI::App& add_undo(CLI::App& parent, UndoOptions& options);
CLI::App& add_redo(CLI::App& parent, RedoOptions& options);

[[nodiscard]] Outcome run(const UndoOptions&, journal::Journal&, const Context&);
[[nodiscard]] Outcome run(const RedoOptions&, journal::Journal&, const Context&);

}  // namespace loafmark::commands
