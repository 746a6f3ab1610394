#include "journal/record_writer.h"

#include <SQLiteCpp/Exception.h>
#include <sqlite3.h>

#include "arithmetic/near_names.h"
#include "journal/error.h"

namespace loafmark::journal {
namespace {

std::string uid_column_of(const std::string& table) {
    return table == "photo" ? "hash" : "uid";
}

// How a column's value is written: a reference by the number of what has that uid.
std::string written(const Column& column) {
    if (column.refers_to.empty()) return "?";
    return "(SELECT id FROM " + column.refers_to + " WHERE " + uid_column_of(column.refers_to) +
           " = ?)";
}

void bind_plain(SQLite::Statement& statement, int index, const Value& value) {
    if (const auto* text = std::get_if<std::string>(&value))
        statement.bind(index, *text);
    else if (const auto* number = std::get_if<std::int64_t>(&value))
        statement.bind(index, *number);
    else if (const auto* real = std::get_if<double>(&value))
        statement.bind(index, *real);
    else if (const auto* bytes = std::get_if<Bytes>(&value))
        // No bytes are not NULL, for which SQLite takes a null pointer.
        statement.bind(index, bytes->empty() ? static_cast<const void*>("") : bytes->data(),
                       static_cast<int>(bytes->size()));
    else
        statement.bind(index);
}

std::string after_last_colon(const std::string& text) {
    const std::size_t colon = text.rfind(": ");
    return colon == std::string::npos ? text : text.substr(colon + 2);
}

}  // namespace

SQLite::Statement& RecordWriter::statement(const std::string& sql) {
    auto found = statements_.find(sql);
    if (found == statements_.end()) found = statements_.try_emplace(sql, db_, sql).first;
    found->second.reset();
    return found->second;
}

void RecordWriter::done(SQLite::Statement& statement, const Record& record) {
    try {
        statement.exec();
        statement.reset();
    } catch (const SQLite::Exception& exception) {
        if (exception.getErrorCode() != SQLITE_CONSTRAINT) throw;
        throw Error(words_for(thing_, record) + " cannot be taken in: " +
                    after_last_colon(exception.what()) + " does not hold");
    }
}

Value RecordWriter::value_of(const std::string& column, const Record& record) const {
    if (!follows_from_another(column)) return record.values[thing_.place_of(column)];
    const Value& value = record.values[thing_.place_of(source_of(column))];
    const auto* const text = std::get_if<std::string>(&value);
    return text ? Value(folded(*text)) : Value();
}

void RecordWriter::bind(SQLite::Statement& target, int index, const Column& column,
                        const Value& value, const Record& record) {
    bind_plain(target, index, value);
    if (column.refers_to.empty() || std::holds_alternative<std::monostate>(value)) return;
    SQLite::Statement& there = statement("SELECT 1 FROM " + column.refers_to + " WHERE " +
                                         uid_column_of(column.refers_to) + " = ?");
    bind_plain(there, 1, value);
    const bool found = there.executeStep();
    there.reset();
    if (!found)
        throw Error(words_for(thing_, record) + " names a " + words_for(column.refers_to) + " (" +
                    std::get<std::string>(value) + ") that neither journal has");
}

void RecordWriter::add(const Record& record) {
    std::string names = thing_.uid;
    std::string places = "?";
    std::vector<const Column*> given;
    std::vector<Value> values;
    for (const Column& column : thing_.columns) {
        Value value = value_of(column.name, record);
        if (std::holds_alternative<std::monostate>(value)) continue;  // as the schema has it
        names += ", " + column.name;
        places += ", " + written(column);
        given.push_back(&column);
        values.push_back(std::move(value));
    }
    SQLite::Statement& last =
        statement("SELECT coalesce((SELECT seq FROM sqlite_sequence WHERE name = ?), 0)");
    last.bind(1, thing_.table);
    last.executeStep();
    const bool own_number = record.number > last.getColumn(0).getInt64();
    last.reset();
    SQLite::Statement& insert = statement("INSERT INTO " + thing_.table + " (id, " + names +
                                          ") VALUES (?, " + places + ")");
    if (own_number)
        insert.bind(1, record.number);
    else
        insert.bind(1);
    insert.bind(2, record.uid);
    for (std::size_t i = 0; i < given.size(); ++i)
        bind(insert, static_cast<int>(i) + 3, *given[i], values[i], record);
    done(insert, record);
    add_parts(db_.getLastInsertRowid(), record);
}

void RecordWriter::add_parts(std::int64_t number, const Record& record) {
    for (std::size_t p = 0; p < thing_.parts.size(); ++p) {
        const Part& part = thing_.parts[p];
        std::string names = part.owner;
        std::string places = "?";
        for (const Column& column : part.columns) {
            names += ", " + column.name;
            places += ", " + written(column);
        }
        for (const Values& row : record.parts[p]) {
            SQLite::Statement& insert =
                statement("INSERT INTO " + part.table + " (" + names + ") VALUES (" + places + ")");
            insert.bind(1, number);
            for (std::size_t i = 0; i < part.columns.size(); ++i)
                bind(insert, static_cast<int>(i) + 2, part.columns[i], row[i], record);
            done(insert, record);
        }
    }
}

void RecordWriter::replace(std::int64_t number, const Record& record) {
    std::string sets;
    for (const Column& column : thing_.columns)
        sets += (sets.empty() ? "" : ", ") + column.name + " = " + written(column);
    SQLite::Statement& update =
        statement("UPDATE " + thing_.table + " SET " + sets + " WHERE id = ?");
    int index = 0;
    for (const Column& column : thing_.columns)
        bind(update, ++index, column, value_of(column.name, record), record);
    update.bind(++index, number);
    done(update, record);
    for (const Part& part : thing_.parts) {
        SQLite::Statement& gone =
            statement("DELETE FROM " + part.table + " WHERE " + part.owner + " = ?");
        gone.bind(1, number);
        done(gone, record);
    }
    add_parts(number, record);
}

std::optional<std::string> RecordWriter::uid_with_same(const std::vector<std::string>& key,
                                                       const Record& record) {
    std::string where;
    for (const std::string& name : key) {
        const Column& column = thing_.columns[thing_.place_of(name)];
        where += (where.empty() ? "" : " AND ") + name + " = " + written(column);
    }
    SQLite::Statement& same =
        statement("SELECT " + thing_.uid + " FROM " + thing_.table + " WHERE " + where);
    int index = 0;
    for (const std::string& name : key)
        bind_plain(same, ++index, value_of(name, record));
    std::optional<std::string> uid;
    if (same.executeStep()) uid = same.getColumn(0).getString();
    same.reset();
    return uid;
}

void RecordWriter::number_freely(const NumberedKey& key, Record& record) {
    auto* const number = std::get_if<std::int64_t>(&record.values[thing_.place_of(key.number)]);
    if (!number) return;
    while (uid_with_same({key.within, key.number}, record))
        ++*number;
}

}  // namespace loafmark::journal
