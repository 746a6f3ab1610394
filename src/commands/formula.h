// loafmark formula add|list|show|scale: formulas in baker's percent.
#pragma once

#include <optional>
#include <string>

#include "commands/context.h"
#include "commands/ingredients.h"
#include "journal/journal.h"

namespace CLI {
class App;
}

namespace loafmark::commands {

struct FormulaAddOptions {
    std::string name;
    Recipe recipe;
    bool new_version = false;
    std::optional<std::string> notes;
};
struct FormulaListOptions {
    bool json = false;
};
struct FormulaShowOptions {
    std::string name;
    bool json = false;
};
// Just one of `dough` and `flour`.
struct FormulaScaleOptions {
    std::string name;
    std::optional<Grams> dough;
    std::optional<Grams> flour;  // all of it, a starter's included
    Grams step{1};               // of the baker's scale
    bool json = false;
};

CLI::App& add_formula(CLI::App& parent);
CLI::App& add_formula_add(CLI::App& formula, FormulaAddOptions& options);
CLI::App& add_formula_list(CLI::App& formula, FormulaListOptions& options);
CLI::App& add_formula_show(CLI::App& formula, FormulaShowOptions& options);
CLI::App& add_formula_scale(CLI::App& formula, FormulaScaleOptions& options);

[[nodiscard]] Outcome run(const FormulaAddOptions&, journal::Journal&, const Context&);
[[nodiscard]] Outcome run(const FormulaListOptions&, const journal::Journal&, const Context&);
[[nodiscard]] Outcome run(const FormulaShowOptions&, const journal::Journal&, const Context&);
[[nodiscard]] Outcome run(const FormulaScaleOptions&, const journal::Journal&, const Context&);

}  // namespace loafmark::commands
