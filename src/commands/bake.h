// loafmark bake add|list|show: bakes of a formula.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "commands/context.h"
#include "commands/ingredients.h"
#include "journal/journal.h"

namespace CLI {
class App;
}

namespace loafmark::commands {

struct BakeAddOptions {
    std::string formula;
    std::optional<std::string> date;  // left out: today
    std::optional<std::string> title;
    std::optional<Grams> dough;   // all of it, as the formula asks
    std::optional<Grams> flour;   // instead: all flour
    std::vector<NamedMass> with;  // what was weighed otherwise than the formula asks
    int loaves = 1;
    std::optional<std::string> tin;
    bool free_form = false;
    std::vector<Grams> baked;  // one a loaf, in order
    std::optional<Celsius> dough_temperature;
    std::optional<Celsius> room;
    std::optional<std::string> handling;
    std::optional<std::string> note;
};
struct BakeListOptions {
    bool json = false;
};
struct BakeShowOptions {
    std::string bake;
    bool json = false;
};

CLI::App& add_bake(CLI::App& parent);
CLI::App& add_bake_add(CLI::App& bake, BakeAddOptions& options);
CLI::App& add_bake_list(CLI::App& bake, BakeListOptions& options);
CLI::App& add_bake_show(CLI::App& bake, BakeShowOptions& options);

// Throws UsageError for a date to come, a loaf too few, an ingredient that the formula has not.
[[nodiscard]] Outcome run(const BakeAddOptions&, journal::Journal&, const Context&);
[[nodiscard]] Outcome run(const BakeListOptions&, const journal::Journal&, const Context&);
[[nodiscard]] Outcome run(const BakeShowOptions&, const journal::Journal&, const Context&);

// The day that `text` names, not after `today`. Throws UsageError that names the option.
[[nodiscard]] Date past_date(const std::string& option, const std::string& text, Date today);

}  // namespace loafmark::commands
