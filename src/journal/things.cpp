#include "journal/things.h"

#include <algorithm>
#include <map>

#include "journal/error.h"

namespace loafmark::journal {
namespace {

struct TableInfo {
    std::vector<Column> columns;
    std::vector<std::string> key;  // of the primary key, in its order
    [[nodiscard]] const Column* column(std::string_view name) const {
        const auto found = std::ranges::find(columns, name, &Column::name);
        return found == columns.end() ? nullptr : &*found;
    }
};

ColumnType type_of(const std::string& declared) {
    if (declared == "INTEGER" || declared == "INT") return ColumnType::integer;
    if (declared == "REAL") return ColumnType::real;
    return declared == "BLOB" ? ColumnType::blob : ColumnType::text;
}

TableInfo info_of_table(const SQLite::Database& db, const std::string& table) {
    TableInfo info;
    std::map<int, std::string> key;
    SQLite::Statement columns(db, "SELECT name, type, pk FROM pragma_table_info(?)");
    columns.bind(1, table);
    while (columns.executeStep()) {
        info.columns.push_back({.name = columns.getColumn(0).getString(),
                                .type = type_of(columns.getColumn(1).getString()),
                                .refers_to = {}});
        if (const int place = columns.getColumn(2).getInt(); place > 0)
            key[place] = info.columns.back().name;
    }
    for (const auto& [place, name] : key)
        info.key.push_back(name);
    SQLite::Statement references(db, "SELECT \"from\", \"table\" FROM pragma_foreign_key_list(?)");
    references.bind(1, table);
    while (references.executeStep()) {
        const std::string from = references.getColumn(0).getString();
        std::ranges::find(info.columns, from, &Column::name)->refers_to =
            references.getColumn(1).getString();
    }
    return info;
}

std::map<std::string, TableInfo> tables_of(const SQLite::Database& db) {
    std::map<std::string, TableInfo> tables;
    SQLite::Statement names(db,
                            "SELECT name FROM sqlite_schema WHERE type = 'table' "
                            "AND name NOT LIKE 'sqlite\\_%' ESCAPE '\\'");
    while (names.executeStep()) {
        const std::string name = names.getColumn(0).getString();
        tables[name] = info_of_table(db, name);
    }
    return tables;
}

std::string uid_column(const TableInfo& table) {
    if (table.column("uid")) return "uid";
    // A photo is named by its content.
    return table.column("hash") && table.column("id") ? "hash" : "";
}

std::vector<std::vector<std::string>> unique_keys(const SQLite::Database& db,
                                                  const std::string& table,
                                                  const std::string& uid) {
    std::vector<std::vector<std::string>> keys;
    SQLite::Statement indices(
        db, "SELECT name FROM pragma_index_list(?) WHERE \"unique\" AND origin <> 'pk'");
    indices.bind(1, table);
    while (indices.executeStep()) {
        SQLite::Statement columns(db, "SELECT name FROM pragma_index_info(?) ORDER BY seqno");
        columns.bind(1, indices.getColumn(0).getString());
        std::vector<std::string> key;
        while (columns.executeStep())
            key.push_back(columns.getColumn(0).getString());
        if (key != std::vector<std::string>{uid}) keys.push_back(key);
    }
    return keys;
}

std::optional<NumberedKey> numbered_key(const Thing& thing) {
    for (const auto& key : thing.unique) {
        if (key.size() != 2) continue;
        const Column& within = thing.columns[thing.place_of(key[0])];
        const Column& number = thing.columns[thing.place_of(key[1])];
        if (!within.refers_to.empty() && number.refers_to.empty() &&
            number.type == ColumnType::integer)
            return NumberedKey{key[0], key[1]};
    }
    return std::nullopt;
}

Part part_of(const std::string& table, const TableInfo& info) {
    Part part{.table = table, .owner = info.key.front(), .columns = {}, .order = {}};
    for (const Column& column : info.columns)
        if (column.name != part.owner) part.columns.push_back(column);
    for (std::size_t i = 1; i < info.key.size(); ++i)
        part.order += (i > 1 ? ", " : "") + info.key[i];
    if (part.order.empty()) part.order = part.owner;
    return part;
}

// Moves the things from `waiting` behind those that they refer to.
std::vector<Thing> in_order_of_reference(std::vector<Thing> waiting) {
    const auto refers_to_one_of = [](const Thing& thing, const std::vector<Thing>& others) {
        const auto refers = [&](const std::vector<Column>& columns) {
            return std::ranges::any_of(columns, [&](const Column& column) {
                return column.refers_to != thing.table &&
                       std::ranges::find(others, column.refers_to, &Thing::table) != others.end();
            });
        };
        return refers(thing.columns) || std::ranges::any_of(thing.parts, [&](const Part& part) {
                   return refers(part.columns);
               });
    };
    std::vector<Thing> ordered;
    while (!waiting.empty()) {
        auto next = std::ranges::find_if(
            waiting, [&](const Thing& thing) { return !refers_to_one_of(thing, waiting); });
        // A ring of references: any of them, since foreign keys are asked at the end.
        if (next == waiting.end()) next = waiting.begin();
        ordered.push_back(std::move(*next));
        waiting.erase(next);
    }
    return ordered;
}

// The columns as a SELECT asks for them: a reference by the uid of what is referred to.
std::string selected(const std::string& table, const std::vector<Column>& columns) {
    std::string list;
    for (const Column& column : columns) {
        const std::string own = table + "." + column.name;
        const std::string uid = column.refers_to == "photo" ? "hash" : "uid";
        list += ", " + (column.refers_to.empty()
                            ? own
                            : "(SELECT other." + uid + " FROM " + column.refers_to +
                                  " AS other WHERE other.id = " + own + ")");
    }
    return list;
}

std::string query_for(const Thing& thing, const std::string& rest) {
    return "SELECT id, " + thing.uid + selected(thing.table, thing.columns) + " FROM " +
           thing.table + rest;
}

Value value_of(const SQLite::Column& column) {
    if (column.isNull()) return {};
    if (column.isInteger()) return column.getInt64();
    if (column.isFloat()) return column.getDouble();
    if (column.isText()) return column.getString();
    const auto* const bytes = static_cast<const std::uint8_t*>(column.getBlob());
    return Bytes(bytes, bytes + column.getBytes());
}

Values values_of(SQLite::Statement& statement, int from, std::size_t count) {
    Values values;
    for (std::size_t i = 0; i < count; ++i)
        values.push_back(value_of(statement.getColumn(from + static_cast<int>(i))));
    return values;
}

}  // namespace

std::size_t Thing::place_of(std::string_view column) const {
    return static_cast<std::size_t>(std::ranges::find(columns, column, &Column::name) -
                                    columns.begin());
}

std::vector<Thing> things_of(const SQLite::Database& db) {
    const auto tables = tables_of(db);
    std::vector<Thing> things;
    for (const auto& [name, info] : tables) {
        const std::string uid = uid_column(info);
        if (uid.empty()) continue;
        Thing& thing = things.emplace_back();
        thing.table = name;
        thing.uid = uid;
        for (const Column& column : info.columns)
            if (column.name != "id" && column.name != uid) thing.columns.push_back(column);
        thing.unique = unique_keys(db, name, uid);
        thing.numbered = numbered_key(thing);
    }
    for (const auto& [name, info] : tables) {
        if (!uid_column(info).empty() || info.key.empty()) continue;
        const auto owner =
            std::ranges::find(things, info.column(info.key.front())->refers_to, &Thing::table);
        if (owner != things.end()) owner->parts.push_back(part_of(name, info));
    }
    return in_order_of_reference(std::move(things));
}

namespace {
constexpr std::string_view folded_ending = "_folded";
}

bool follows_from_another(std::string_view column) {
    return column.ends_with(folded_ending);
}

std::string source_of(std::string_view column) {
    return std::string(column.substr(0, column.size() - folded_ending.size()));
}

RecordReader::RecordReader(const SQLite::Database& db, const Thing& thing)
    : thing_(thing),
      all_(db, query_for(thing, " ORDER BY id")),
      one_(db, query_for(thing, " WHERE " + thing.uid + " = ?")) {
    for (const Part& part : thing.parts)
        parts_.emplace_back(db, "SELECT 0" + selected(part.table, part.columns) + " FROM " +
                                    part.table + " WHERE " + part.owner + " = ? ORDER BY " +
                                    part.order);
}

bool RecordReader::find(const std::string& uid, Record& record) {
    one_.reset();
    one_.bind(1, uid);
    const bool found = one_.executeStep();
    if (found) record = current(one_);
    one_.reset();
    return found;
}

Record RecordReader::current(SQLite::Statement& statement) {
    Record record{.number = statement.getColumn(0).getInt64(),
                  .uid = statement.getColumn(1).getString(),
                  .values = values_of(statement, 2, thing_.columns.size()),
                  .parts = {}};
    for (std::size_t i = 0; i < parts_.size(); ++i) {
        auto& rows = record.parts.emplace_back();
        parts_[i].reset();
        parts_[i].bind(1, record.number);
        while (parts_[i].executeStep())
            rows.push_back(values_of(parts_[i], 1, thing_.parts[i].columns.size()));
        parts_[i].reset();
    }
    return record;
}

std::string words_for(std::string_view table) {
    std::string words(table);
    std::ranges::replace(words, '_', ' ');
    return words;
}

std::string words_for(const Thing& thing, const Record& record) {
    const std::string noun = words_for(thing.table);
    for (const char* const column : {"name", "title", "date"})
        if (const std::size_t place = thing.place_of(column); place < record.values.size())
            if (const auto* const text = std::get_if<std::string>(&record.values[place]))
                return noun + " '" + *text + "'";
    return noun + " " + record.uid;
}

}  // namespace loafmark::journal
