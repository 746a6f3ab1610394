// Opening the journal, with a remedy where it cannot be.
#pragma once

#include <filesystem>
#include <functional>

#include "journal/journal.h"

namespace loafmark::commands {

// Made where there is none. Throws Failure.
[[nodiscard]] journal::Journal journal_to_write(const std::filesystem::path& folder);

// For a command that only reads: works on a folder that cannot be written to, too. Throws Failure.
[[nodiscard]] journal::Journal journal_to_read(const std::filesystem::path& folder);

// For a command that wants the journal for some of what it does and nothing of it for the rest.
struct OpenJournal {
    std::function<journal::Journal()> to_write;
    std::function<journal::Journal()> to_read;
};

}  // namespace loafmark::commands
