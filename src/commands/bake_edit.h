// loafmark bake edit: fills in or corrects what is known of a bake.
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

struct BakeEditOptions {
    std::string bake;
    std::optional<std::string> title;
    std::vector<NamedMass> with;  // as it truly was
    DoughFactsTyped facts;
    std::optional<int> loaf;  // 1 unless said
    journal::LoafChange loaf_change;
    bool sure = false;
};

CLI::App& add_bake_edit(CLI::App& bake, BakeEditOptions& options);
[[nodiscard]] Outcome run(const BakeEditOptions&, journal::Journal&, const Context&);

}  // namespace loafmark::commands
