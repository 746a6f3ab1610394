// The journal as things and parts, read from the schema itself: what export, import, merge and undo
// need to know of a table stands in the table, so that a new one needs no code of its own.
//
// A thing is a row that has a name in every journal: its `uid` (of a photo: its hash). A part is a
// row of a table whose primary key begins with the thing that it belongs to; it goes where its
// thing goes.
#pragma once

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace loafmark::journal {

enum class ColumnType { integer, real, text, blob };

struct Column {
    std::string name;
    ColumnType type = ColumnType::text;
    std::string refers_to;  // the table of things whose uid stands here; empty: a plain value
};

struct Part {
    std::string table;
    std::string owner;            // the column that holds the thing's number
    std::vector<Column> columns;  // all others
    std::string order;            // "position": the rest of the primary key
};

// A reference and a number that counts within it: version of a formula, number of a loaf.
struct NumberedKey {
    std::string within;
    std::string number;
};

struct Thing {
    std::string table;
    std::string uid;              // the column
    std::vector<Column> columns;  // all others but the number
    std::vector<Part> parts;
    // Columns that no two rows may have alike, beside number and uid.
    std::vector<std::vector<std::string>> unique;
    std::optional<NumberedKey> numbered;  // the one of `unique` that is such a key

    // Of `columns`; columns.size() where there is none.
    [[nodiscard]] std::size_t place_of(std::string_view column) const;
};

// Those that others refer to before those that refer to them.
[[nodiscard]] std::vector<Thing> things_of(const SQLite::Database& db);

// "name_folded" follows from "name": neither exported nor compared.
[[nodiscard]] bool follows_from_another(std::string_view column);
// The column that such a one follows from.
[[nodiscard]] std::string source_of(std::string_view column);

// ---- Rows ----

using Bytes = std::vector<std::uint8_t>;
// A reference is the uid of what is referred to.
using Value = std::variant<std::monostate, std::int64_t, double, std::string, Bytes>;
using Values = std::vector<Value>;

struct Record {
    std::int64_t number = 0;  // within its journal
    std::string uid;
    Values values;                           // in the order of Thing::columns
    std::vector<std::vector<Values>> parts;  // in that of Thing::parts
};

// Reads the things of one table. Statements are kept between calls.
class RecordReader {
  public:
    RecordReader(const SQLite::Database& db, const Thing& thing);

    // Calls take(record) for each, by number.
    template <class Take>
    void for_each(Take take) {
        all_.reset();
        while (all_.executeStep())
            take(current(all_));
    }
    // Whether there is one; `record` is it.
    [[nodiscard]] bool find(const std::string& uid, Record& record);

  private:
    Record current(SQLite::Statement& statement);

    const Thing& thing_;
    SQLite::Statement all_;
    SQLite::Statement one_;
    std::vector<SQLite::Statement> parts_;
};

// What people call it: its name, title or date, where it has one, and its number or uid.
[[nodiscard]] std::string words_for(const Thing& thing, const Record& record);
// "formula version" of formula_version.
[[nodiscard]] std::string words_for(std::string_view table);

}  // namespace loafmark::journal
