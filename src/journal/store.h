// The open database and what rows are stamped with: what the parts of the journal work on.
#pragma once

#include <SQLiteCpp/Database.h>

#include <string>

#include "journal/journal.h"

namespace loafmark::journal {

class Store {
  public:
    Store(SQLite::Database& database, const Environment& environment)
        : db(database), environment_(environment) {}

    SQLite::Database& db;

    // UTC, 2026-03-01T18:20:00Z.
    [[nodiscard]] std::string now() const;
    // A random UUID (RFC 4122, version 4), lower case: names a thing across journals.
    [[nodiscard]] std::string new_uid() const;

  private:
    const Environment& environment_;
};

}  // namespace loafmark::journal
