// loafmark bake add|list|show: bakes of a formula.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "commands/bake_facts_options.h"
#include "commands/context.h"
#include "commands/ingredients.h"
#include "journal/journal.h"

namespace CLI {
class App;
}

namespace loafmark::commands {

struct BakeAddOptions {
    std::optional<std::string> formula;
    std::optional<std::string> like;  // BAKE: as that one, but for what is said otherwise
    std::optional<std::string> date;  // left out: today
    std::optional<std::string> title;
    std::optional<Grams> dough;        // all of it, as the formula asks
    std::optional<std::string> flour;  // instead: all flour, a mass; or the flour to bake it with
    std::vector<NamedMass> with;       // what was weighed otherwise than the formula asks
    std::vector<int> bags;             // left out: the oldest open ones
    std::optional<int> loaves;         // as in `like`, else 1
    std::optional<std::string> tin;
    bool free_form = false;
    std::vector<Grams> baked;  // one a loaf, in order
    journal::LoafFacts loaf;   // of each loaf
    DoughFactsTyped facts;
    std::vector<journal::BakeStep> steps;
    bool sure = false;  // that so dry or so wet a dough is meant
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

// The bake that is to be added, worked out but not kept. Throws UsageError for a date to come, a
// loaf too few, an ingredient that the formula has not.
[[nodiscard]] journal::NewBake bake_of(const BakeAddOptions&, const journal::Journal&,
                                       const Context&);
// Whether a mass of dough or flour is among the options.
[[nodiscard]] bool amount_said(const BakeAddOptions& options);
// --flour takes a mass or a flour's name; a mass begins with its number.
[[nodiscard]] bool is_mass(const std::string& flour);
// In bake_add_prompts.cpp: the options with what was asked on the terminal for the rest, and first,
// in a journal of which nothing is known yet, about the kitchen. Throws Failure where the answers
// end; nothing is kept of the bake then.
[[nodiscard]] BakeAddOptions asked_for(const BakeAddOptions&, journal::Journal&, const Context&);
[[nodiscard]] Outcome run(const BakeAddOptions&, journal::Journal&, const Context&);
[[nodiscard]] Outcome run(const BakeListOptions&, const journal::Journal&, const Context&);
[[nodiscard]] Outcome run(const BakeShowOptions&, const journal::Journal&, const Context&);

// The day that `text` names, not after `today`. Throws UsageError that names the option.
[[nodiscard]] Date past_date(const std::string& option, const std::string& text, Date today);

}  // namespace loafmark::commands
