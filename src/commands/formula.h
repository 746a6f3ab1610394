// loafmark formula add|list|show|diff|scale: formulas in baker's percent.
#pragma once

#include <optional>
#include <string>

#include "commands/context.h"
#include "commands/dough_size.h"
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
    bool sure = false;  // that so dry or so wet a dough is meant
    std::optional<std::string> notes;
};
struct FormulaListOptions {
    bool json = false;
};
struct FormulaShowOptions {
    std::string name;
    std::optional<int> version;  // the newest unless said
    bool json = false;
};
struct FormulaDiffOptions {
    std::string name;
    std::optional<int> from;  // versions; the last two unless said
    std::optional<int> to;
};
struct FormulaScaleOptions {
    std::string name;
    DoughSizeTyped size;
    std::optional<Grams> step;  // of the baker's scales
    bool json = false;
};

CLI::App& add_formula(CLI::App& parent);
CLI::App& add_formula_add(CLI::App& formula, FormulaAddOptions& options);
CLI::App& add_formula_list(CLI::App& formula, FormulaListOptions& options);
CLI::App& add_formula_show(CLI::App& formula, FormulaShowOptions& options);
CLI::App& add_formula_diff(CLI::App& formula, FormulaDiffOptions& options);
CLI::App& add_formula_scale(CLI::App& formula, FormulaScaleOptions& options);

[[nodiscard]] Outcome run(const FormulaAddOptions&, journal::Journal&, const Context&);
[[nodiscard]] Outcome run(const FormulaListOptions&, const journal::Journal&, const Context&);
[[nodiscard]] Outcome run(const FormulaShowOptions&, const journal::Journal&, const Context&);
[[nodiscard]] Outcome run(const FormulaDiffOptions&, const journal::Journal&, const Context&);
[[nodiscard]] Outcome run(const FormulaScaleOptions&, const journal::Journal&, const Context&);

}  // namespace loafmark::commands
