// loafmark next FLOUR --want OUTCOME: what to bake a flour with next.
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

// An outcome as typed: a control is looked up in the journal later.
struct GoalTyped {
    insight::Goal goal;
    std::optional<std::string> as;  // a bake or a flour
};

struct NextOptions {
    std::string flour;
    std::optional<GoalTyped> want;
    insight::Vary vary = insight::Vary::water;
    bool json = false;
};

// "tallest"; a measure and its value: "openness 0.45"; or a control: "as wheat", of a measure other
// than the loaf's height "openness as wheat". Throws std::runtime_error.
[[nodiscard]] GoalTyped parse_goal(const std::string& text);

CLI::App& add_next(CLI::App& parent, NextOptions& options);

[[nodiscard]] Outcome run(const NextOptions&, const journal::Journal&, const Context&);

}  // namespace loafmark::commands
