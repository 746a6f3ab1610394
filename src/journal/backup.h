// The whole journal in one file, and back. The file is a tar: loafmark.db, photos/ as they lie in
// the journal's folder, and SHA256SUMS, which `sha256sum -c` reads.
#pragma once

#include <SQLiteCpp/Database.h>

#include <filesystem>

#include "journal/journal.h"
#include "journal/photo_store.h"

namespace loafmark::journal {

BackupCounts back_up(SQLite::Database& db, const PhotoStore& photos,
                     const std::filesystem::path& file);

// Puts all of one database in place of the other's content, in one transaction of the other. Throws
// SQLite::Exception, also where somebody has it locked.
void copy_content(SQLite::Database& from, SQLite::Database& to);

// Copies the database as of one moment, while others may read and write it, into a new file that is
// whole by itself (no WAL beside it).
void copy_database(SQLite::Database& from, const std::filesystem::path& to);

}  // namespace loafmark::journal
