// loafmark backup, loafmark restore: the whole journal in one file.
#pragma once

#include <filesystem>
#include <functional>

#include "commands/context.h"
#include "journal/journal.h"

namespace CLI {
class App;
}

namespace loafmark::commands {

struct BackupOptions {
    std::filesystem::path file;
};
struct RestoreOptions {
    std::filesystem::path file;
};

// The journal's folder, whether or not there is a journal, or one that can be opened.
struct JournalFolder {
    std::filesystem::path path;
};

CLI::App& add_backup(CLI::App& parent, BackupOptions& options);
CLI::App& add_restore(CLI::App& parent, RestoreOptions& options);

[[nodiscard]] Outcome run(const BackupOptions&, const journal::Journal&, const Context&);
[[nodiscard]] Outcome run(const RestoreOptions&, const JournalFolder&, const Context&);

}  // namespace loafmark::commands
