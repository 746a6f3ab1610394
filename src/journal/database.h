// Opening the journal's SQLite file, and saying in words what SQLite says in codes.
#pragma once

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Exception.h>

#include <chrono>
#include <filesystem>
#include <memory>
#include <string>

#include "journal/error.h"

namespace loafmark::journal {

inline constexpr const char* database_name = "loafmark.db";

// For reading and writing; made if absent. Foreign keys on, WAL where the file system can, every
// commit flushed to disk. Throws Error, or SQLite::Exception.
[[nodiscard]] SQLite::Database open_to_write(const std::filesystem::path& file,
                                             std::chrono::milliseconds wait_for_others);

// For reading: every statement that would write fails. Where the folder cannot be written, SQLite
// cannot make the files through which readers and writers see each other; then nobody can be
// writing, and the file is opened as one that does not change. Error: such a file has changes
// beside it that were never put into it.
[[nodiscard]] SQLite::Database open_to_read(const std::filesystem::path& file,
                                            std::chrono::milliseconds wait_for_others);

// Runs the statements; while others are in the way, again and again until the wait is over. For
// what SQLite answers "busy" to at once, whatever the timeout.
void exec_when_free(SQLite::Database& db, const char* sql, std::chrono::milliseconds wait);

// The last resort of open_to_read(): touches nothing beside the file.
[[nodiscard]] SQLite::Database open_unchanging(const std::filesystem::path& file);

// What the exception means, with the place.
[[nodiscard]] Error in_words(const SQLite::Exception& exception,
                             const std::filesystem::path& folder,
                             std::chrono::milliseconds wait_for_others);

}  // namespace loafmark::journal
