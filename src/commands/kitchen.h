// loafmark kitchen show|set: what is asked once and then known.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "commands/context.h"
#include "journal/journal.h"

namespace CLI {
class App;
}

namespace loafmark::commands {

struct TypedTin {
    std::string name;
    std::optional<Millilitres> volume;
};
// `NAME` or `NAME=1800ml`. Throws std::runtime_error.
[[nodiscard]] TypedTin parse_tin(const std::string& text);

struct KitchenShowOptions {
    bool json = false;
};
struct KitchenSetOptions {
    journal::KitchenFacts facts;
    std::vector<TypedTin> tins;
    std::vector<std::string> tasters;
    std::vector<std::string> forgotten_tins;
    std::vector<std::string> forgotten_tasters;
};

CLI::App& add_kitchen(CLI::App& parent);
CLI::App& add_kitchen_show(CLI::App& kitchen, KitchenShowOptions& options);
CLI::App& add_kitchen_set(CLI::App& kitchen, KitchenSetOptions& options);

[[nodiscard]] Outcome run(const KitchenShowOptions&, const journal::Journal&, const Context&);
[[nodiscard]] Outcome run(const KitchenSetOptions&, journal::Journal&, const Context&);

}  // namespace loafmark::commands
