// loafmark bake adjust|mark: at the bowl, with floury hands.
#pragma once

#include <optional>
#include <string>

#include "commands/context.h"
#include "journal/journal.h"

namespace CLI {
class App;
}

namespace loafmark::commands {

struct BakeAdjustOptions {
    std::string bake;
    Fraction to;        // hydration
    bool done = false;  // it went in
    bool sure = false;
};
struct BakeMarkOptions {
    std::string bake;
    std::string step;               // of journal::step_words
    std::optional<std::string> at;  // as typed; left out: now
    std::optional<Minutes> lasted;
    std::optional<Celsius> temperature;
};

CLI::App& add_bake_adjust(CLI::App& bake, BakeAdjustOptions& options);
CLI::App& add_bake_mark(CLI::App& bake, BakeMarkOptions& options);

[[nodiscard]] Outcome run(const BakeAdjustOptions&, journal::Journal&, const Context&);
[[nodiscard]] Outcome run(const BakeMarkOptions&, journal::Journal&, const Context&);

}  // namespace loafmark::commands
