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

// `NAME` or `NAME=1800ml`. Throws std::runtime_error.
[[nodiscard]] journal::NewTin parse_tin(const std::string& text);

struct KitchenShowOptions {
    bool json = false;
};
struct KitchenSetOptions {
    journal::KitchenChange change;  // nothing at all: asked on the terminal
};

CLI::App& add_kitchen(CLI::App& parent);
CLI::App& add_kitchen_show(CLI::App& kitchen, KitchenShowOptions& options);
CLI::App& add_kitchen_set(CLI::App& kitchen, KitchenSetOptions& options);

[[nodiscard]] Outcome run(const KitchenShowOptions&, const journal::Journal&, const Context&);
[[nodiscard]] Outcome run(const KitchenSetOptions&, journal::Journal&, const Context&);

// Asks for what is told once a kitchen; Enter or a lone minus leaves a thing as it is. Throws
// AnswersEnd (prompts.h).
[[nodiscard]] journal::KitchenChange ask_about_kitchen(const journal::Kitchen& known,
                                                       const Context& context);
// C or F, also written out. Throws std::runtime_error.
[[nodiscard]] std::string parse_temperatures(const std::string& text);

}  // namespace loafmark::commands
