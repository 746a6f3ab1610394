// loafmark flour add|list|show|edit: the flours that the baker buys again.
#pragma once

#include <optional>
#include <string>

#include "commands/context.h"
#include "journal/journal.h"

namespace CLI {
class App;
}

namespace loafmark::commands {

struct FlourAddOptions {
    journal::NewFlour flour;
    std::optional<std::string> typical;  // a kind of insight::typical_flours()
};
struct FlourEditOptions {
    std::string name;
    journal::FlourChange change;
};
struct FlourListOptions {
    bool json = false;
};
struct FlourShowOptions {
    std::string name;
    bool json = false;
};

// `flour`, which holds the verbs below.
CLI::App& add_flour(CLI::App& parent);
CLI::App& add_flour_add(CLI::App& flour, FlourAddOptions& options);
CLI::App& add_flour_edit(CLI::App& flour, FlourEditOptions& options);
CLI::App& add_flour_list(CLI::App& flour, FlourListOptions& options);
CLI::App& add_flour_show(CLI::App& flour, FlourShowOptions& options);

[[nodiscard]] Outcome run(const FlourAddOptions&, journal::Journal&, const Context&);
[[nodiscard]] Outcome run(const FlourEditOptions&, journal::Journal&, const Context&);
[[nodiscard]] Outcome run(const FlourListOptions&, const journal::Journal&, const Context&);
[[nodiscard]] Outcome run(const FlourShowOptions&, const journal::Journal&, const Context&);

}  // namespace loafmark::commands
