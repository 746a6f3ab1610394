// loafmark export: the journal as a document that anything can read.
#pragma once

#include <filesystem>
#include <optional>

#include "commands/context.h"
#include "journal/journal.h"

namespace CLI {
class App;
}

namespace loafmark::commands {

struct ExportOptions {
    std::optional<std::filesystem::path> output;  // none: stdout
    std::optional<std::filesystem::path> photos;  // a folder that their bytes go to
    std::optional<std::string> csv;               // bakes, readings
};

CLI::App& add_export(CLI::App& parent, ExportOptions& options);

[[nodiscard]] Outcome run(const ExportOptions&, const journal::Journal&, const Context&);

// Where import looks for the photos of an exported document, unless told: journal-photos beside
// journal.json.
[[nodiscard]] std::filesystem::path photos_beside(const std::filesystem::path& document);

}  // namespace loafmark::commands
