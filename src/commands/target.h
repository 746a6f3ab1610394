// loafmark target: writes a printable mat or strip, and keeps what its print measures.
#pragma once

#include <optional>
#include <string>

#include "analysis/target_layout.h"
#include "analysis/units.h"
#include "commands/context.h"
#include "commands/open_journal.h"
#include "targets/targets.h"

namespace CLI {
class App;
}

namespace loafmark::commands {

struct TargetOptions {
    std::optional<TargetKind> kind;
    targets::FieldStyle field = targets::FieldStyle::blue;
    std::optional<std::string> output;       // ends in .pdf or .svg
    std::optional<Millimetres> print_check;  // to be kept
    bool forget_check = false;
    bool list = false;
};

CLI::App& add_target(CLI::App& parent, TargetOptions& options);

// Writes the file whole or not at all. The journal is opened only for what is kept in it.
[[nodiscard]] Outcome run(const TargetOptions& options, const OpenJournal& open,
                          const Context& context);

}  // namespace loafmark::commands
