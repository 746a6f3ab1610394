// Writes things that another journal named.
#pragma once

#include <map>
#include <optional>
#include <string>

#include "journal/things.h"

namespace loafmark::journal {

// Each throws Error that names the thing where the schema refuses it or what it refers to is
// nowhere.
class RecordWriter {
  public:
    RecordWriter(SQLite::Database& db, const Thing& thing) : db_(db), thing_(thing) {}

    // Under its own number where that was never given out here, else under the next.
    void add(const Record& record);
    // All but the number of the thing that has this number.
    void replace(std::int64_t number, const Record& record);

    // The uid of the thing here that has these columns as the record has.
    [[nodiscard]] std::optional<std::string> uid_with_same(const std::vector<std::string>& key,
                                                           const Record& record);
    // The record's number or the next above it that is free.
    void number_freely(const NumberedKey& key, Record& record);

  private:
    SQLite::Statement& statement(const std::string& sql);
    void bind(SQLite::Statement& statement, int index, const Column& column, const Value& value,
              const Record& record);
    void add_parts(std::int64_t number, const Record& record);
    void done(SQLite::Statement& statement, const Record& record);
    // With what follows from others worked out.
    [[nodiscard]] Value value_of(const std::string& column, const Record& record) const;

    SQLite::Database& db_;
    const Thing& thing_;
    std::map<std::string, SQLite::Statement> statements_;
};

}  // namespace loafmark::journal
