// What may be noted of a dough and of a loaf, as options that adding and editing share.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "journal/drafts.h"

namespace CLI {
class App;
}

namespace loafmark::commands {

struct DoughFactsTyped {
    journal::BakeFacts facts;
    std::optional<Celsius> dough_temperature;
    std::optional<Celsius> room;
    std::optional<std::string> handling;
    std::optional<std::string> note;
};

void add_dough_facts_options(CLI::App& app, DoughFactsTyped& into);
void add_loaf_facts_options(CLI::App& app, journal::LoafFacts& into);

// `bulk fermentation=3h` or `bake=45min@230C`. Throws std::runtime_error.
[[nodiscard]] journal::BakeStep parse_step(const std::string& text);

// A dough that no baker means without being asked: under 30 % or over 200 % hydration. Throws
// UsageError unless the baker is sure.
void ask_about_hydration(std::optional<Fraction> hydration, bool sure);

}  // namespace loafmark::commands
