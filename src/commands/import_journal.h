// loafmark import: takes in what `export` wrote.
#pragma once

#include <filesystem>
#include <optional>

#include "commands/context.h"
#include "journal/journal.h"

namespace CLI {
class App;
}

namespace loafmark::commands {

struct ImportOptions {
    std::filesystem::path document;
    std::optional<std::filesystem::path> photos;
    journal::MergeChoices choices;
};

CLI::App& add_import(CLI::App& parent, ImportOptions& options);

[[nodiscard]] Outcome run(const ImportOptions&, journal::Journal&, const Context&);

}  // namespace loafmark::commands
