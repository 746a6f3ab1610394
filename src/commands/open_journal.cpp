#include "commands/open_journal.h"

#include <concepts>

#include "commands/failure.h"

namespace loafmark::commands {
namespace {

template <std::invocable Open>
journal::Journal opened(Open open) {
    try {
        return open();
    } catch (const journal::Error& error) {
        throw Failure(error.what(), "put that right, or name another folder with --journal DIR");
    }
}

}  // namespace

journal::Journal journal_to_write(const std::filesystem::path& folder) {
    return opened([&] { return journal::Journal::open(folder); });
}

journal::Journal journal_to_read(const std::filesystem::path& folder) {
    if (!journal::Journal::exists(folder)) return journal_to_write(folder);
    return opened([&] { return journal::Journal::open_for_reading(folder); });
}

}  // namespace loafmark::commands
