// loafmark drop, loafmark bin, loafmark set-aside.
#pragma once

#include <optional>
#include <string>

#include "commands/context.h"
#include "journal/journal.h"

namespace CLI {
class App;
}

namespace loafmark::commands {

struct DropOptions {
    journal::Droppable kind = journal::Droppable::bake;
    std::string which;
};
struct BinOptions {};
struct BinListOptions {};
struct BinBackOptions {
    journal::Droppable kind = journal::Droppable::bake;
    std::string which;
};
struct BinEmptyOptions {
    bool sure = false;
};
struct SetAsideOptions {
    std::string bake;
    std::optional<std::string> because;
    bool back = false;
};

CLI::App& add_drop(CLI::App& parent, DropOptions& options);
CLI::App& add_bin(CLI::App& parent);
CLI::App& add_bin_list(CLI::App& bin, BinListOptions& options);
CLI::App& add_bin_back(CLI::App& bin, BinBackOptions& options);
CLI::App& add_bin_empty(CLI::App& bin, BinEmptyOptions& options);
CLI::App& add_set_aside(CLI::App& parent, SetAsideOptions& options);

[[nodiscard]] Outcome run(const DropOptions&, journal::Journal&, const Context&);
[[nodiscard]] Outcome run(const BinListOptions&, const journal::Journal&, const Context&);
[[nodiscard]] Outcome run(const BinBackOptions&, journal::Journal&, const Context&);
[[nodiscard]] Outcome run(const BinEmptyOptions&, journal::Journal&, const Context&);
[[nodiscard]] Outcome run(const SetAsideOptions&, journal::Journal&, const Context&);

}  // namespace loafmark::commands
