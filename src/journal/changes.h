// Changes that can be taken back. While a change is written, SQLite's session extension notes what
// every row was and became; the note is kept with it, in the same transaction. Taking back applies
// it inverted, and only if every row still is as the change left it.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "journal/records.h"
#include "journal/store.h"

struct sqlite3_session;

namespace loafmark::journal {

// Notes what is written between its making and keep(). Made within the transaction.
class Recording {
  public:
    explicit Recording(SQLite::Database& db);
    ~Recording();
    Recording(const Recording&) = delete;
    Recording& operator=(const Recording&) = delete;

    // Keeps the note as the newest change; does nothing where nothing was written. Changes that
    // were taken back before cannot be made again from here on. Of a change whose note is too large
    // (64 MB) only the words are kept. The 20 newest stay.
    void keep(Store& store);

  private:
    SQLite::Database& db_;
    std::vector<std::string> tables_;
    sqlite3_session* session_ = nullptr;
};

// Newest first, those that were taken back among them.
[[nodiscard]] std::vector<Change> changes(const Store& store);

// Takes back the newest that was not, or makes the oldest again that was. Error: there is none; its
// note was too large to be kept; rows are no longer as it left them.
Change undo(Store& store);
Change redo(Store& store);

// Forgets all of them: after what cannot be taken back.
void forget_changes(SQLite::Database& db);

}  // namespace loafmark::journal
