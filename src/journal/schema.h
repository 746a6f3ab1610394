// The shape of the database and how older ones are brought to it. docs/database.md describes it.
#pragma once

#include <SQLiteCpp/Database.h>

#include <span>

#include "journal/store.h"

namespace loafmark::journal {

// One numbered change of the schema, as SQL. Steps are never edited once released: a change is a
// new step at the end.
[[nodiscard]] std::span<const char* const> migrations();

// PRAGMA user_version of a journal that this program writes: the number of steps.
[[nodiscard]] int current_schema_version();

[[nodiscard]] int schema_version(const SQLite::Database& db);

// Whether the file is a journal's database, or an empty one that may become it.
[[nodiscard]] bool is_journal(const SQLite::Database& db);

// Runs the steps that the database lacks, all in one immediate transaction, and makes the one
// kitchen of a new journal. Does nothing to an up-to-date one.
void migrate(Store& store, std::span<const char* const> steps = migrations());

}  // namespace loafmark::journal
