// loafmark target: writes a printable mat or strip.
#pragma once

#include <string>

#include "analysis/target_layout.h"
#include "commands/context.h"
#include "targets/targets.h"

namespace CLI {
class App;
}

namespace loafmark::commands {

struct TargetOptions {
    TargetKind kind = TargetKind::a4_mat;
    targets::FieldStyle field = targets::FieldStyle::blue;
    std::string output;  // ends in .pdf or .svg
};

CLI::App& add_target(CLI::App& parent, TargetOptions& options);

// Writes the file whole or not at all.
[[nodiscard]] Outcome run(const TargetOptions& options, const Context& context);

}  // namespace loafmark::commands
