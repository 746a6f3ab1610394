// loafmark bag add|list|edit: purchases of a flour and what is left of them.
#pragma once

#include <optional>
#include <string>

#include "commands/context.h"
#include "journal/journal.h"

namespace CLI {
class App;
}

namespace loafmark::commands {

// As typed: days are read when it is known which day it is.
struct BagFactsTyped {
    journal::BagFacts facts;
    std::optional<std::string> bought;
    std::optional<std::string> best_before;
    std::optional<std::string> opened;
    std::optional<std::string> milled;
};
struct BagAddOptions {
    std::string flour;
    BagFactsTyped typed;
};
struct BagListOptions {
    std::optional<std::string> flour;
    bool all = false;                    // empty ones too
    std::optional<std::string> formula;  // how many loaves of it they still make
    std::optional<Grams> each;           // of this much dough
    bool json = false;
};
struct BagEditOptions {
    int bag = 0;
    BagFactsTyped typed;
};

CLI::App& add_bag(CLI::App& parent);
CLI::App& add_bag_add(CLI::App& bag, BagAddOptions& options);
CLI::App& add_bag_list(CLI::App& bag, BagListOptions& options);
CLI::App& add_bag_edit(CLI::App& bag, BagEditOptions& options);

[[nodiscard]] Outcome run(const BagAddOptions&, journal::Journal&, const Context&);
[[nodiscard]] Outcome run(const BagListOptions&, const journal::Journal&, const Context&);
[[nodiscard]] Outcome run(const BagEditOptions&, journal::Journal&, const Context&);

}  // namespace loafmark::commands
