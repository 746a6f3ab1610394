// loafmark blend: how to stretch a scarce flour.
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

struct BlendOptions {
    std::string spared;
    std::vector<std::string> others;
    std::optional<Grams> need;           // flour in all
    std::optional<std::string> formula;  // instead, with `loaves` and `each`
    std::optional<int> loaves;
    std::optional<Grams> each;
    std::optional<Fraction> strength;   // protein that counts, at 14 % moisture
    std::optional<Millimetres> height;  // or the height of a loaf, by the journal's own
    std::optional<double> volume;       // or its specific volume in mL/g, the same
    std::vector<NamedShare> least;
    std::vector<NamedShare> most;
    std::vector<NamedShare> counts;  // share of a flour's protein that counts
};

CLI::App& add_blend(CLI::App& parent, BlendOptions& options);
[[nodiscard]] Outcome run(const BlendOptions&, const journal::Journal&, const Context&);

}  // namespace loafmark::commands
