// loafmark next FLOUR --want OUTCOME: which water to bake a flour with next.
#pragma once

#include <optional>
#include <string>

#include "commands/context.h"
#include "insight/next_bake.h"
#include "journal/journal.h"

namespace CLI {
class App;
}

namespace loafmark::commands {

struct NextOptions {
    std::string flour;
    std::optional<insight::Goal> want;
    bool json = false;
};

// "tallest", or a measure and its value: "openness 0.45", "loaf_height 95". Throws
// std::runtime_error.
[[nodiscard]] insight::Goal parse_goal(const std::string& text);

CLI::App& add_next(CLI::App& parent, NextOptions& options);

[[nodiscard]] Outcome run(const NextOptions&, const journal::Journal&, const Context&);

}  // namespace loafmark::commands
