// loafmark formula sheet: the bench sheet, one list in order of time.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "arithmetic/water_temperature.h"
#include "commands/context.h"
#include "commands/dough_size.h"
#include "journal/journal.h"

namespace CLI {
class App;
}

namespace loafmark::commands {

struct FormulaSheetOptions {
    std::string name;
    DoughSizeTyped size;
    std::optional<Grams> step;
    std::optional<Celsius> dough_temperature;  // wanted
    std::optional<Celsius> room;
    std::optional<Celsius> flour_temperature;  // left out: the room's
    std::optional<Celsius> starter_temperature;
    std::optional<Celsius> tap;
    std::optional<FrictionKelvins> friction;  // left out: learnt from bakes
    std::optional<std::string> mixed_by;      // whose friction
};

CLI::App& add_formula_sheet(CLI::App& formula, FormulaSheetOptions& options);
[[nodiscard]] Outcome run(const FormulaSheetOptions&, const journal::Journal&, const Context&);

// Of every flour of the formula; a grain that is not noted is absent.
[[nodiscard]] std::vector<std::optional<std::string>> grains_of(
    const journal::FormulaVersion& formula, const journal::Journal& journal);

// One line a step: what goes in, how much, what the bowl then weighs. Of amounts as they are
// weighed.
[[nodiscard]] std::string bench_list(const journal::FormulaVersion& formula,
                                     const std::vector<Grams>& masses);

}  // namespace loafmark::commands
