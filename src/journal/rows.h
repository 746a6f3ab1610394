// Values into statements and out of rows. A value that is absent is NULL, and the reverse.
#pragma once

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>

#include <concepts>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

#include "arithmetic/dates.h"
#include "journal/names.h"
#include "journal/records.h"

namespace loafmark::journal {

// ---- Into a statement: parameter `index`, from 1 ----

inline void bind_value(SQLite::Statement& statement, int index, std::string_view text) {
    statement.bind(index, std::string(text));
}
inline void bind_value(SQLite::Statement& statement, int index, std::integral auto number) {
    statement.bind(index, static_cast<std::int64_t>(number));
}
inline void bind_value(SQLite::Statement& statement, int index, double number) {
    statement.bind(index, number);
}
template <class Unit>
void bind_value(SQLite::Statement& statement, int index, Quantity<Unit> quantity) {
    statement.bind(index, quantity.count());
}
inline void bind_value(SQLite::Statement& statement, int index, Celsius temperature) {
    statement.bind(index, temperature.degrees());
}
inline void bind_value(SQLite::Statement& statement, int index, Date date) {
    statement.bind(index, to_text(date));
}
template <class Tag>
void bind_value(SQLite::Statement& statement, int index, Id<Tag> id) {
    statement.bind(index, id.value);
}
template <class Choice>
requires std::is_enum_v<Choice>
void bind_value(SQLite::Statement& statement, int index, Choice choice) {
    statement.bind(index, std::string(name_of(choice)));
}
inline void bind_value(SQLite::Statement& statement, int index,
                       const std::vector<std::uint8_t>& bytes) {
    // No bytes are not NULL, for which SQLite takes a null pointer.
    const void* const begin = bytes.empty() ? "" : static_cast<const void*>(bytes.data());
    statement.bind(index, begin, static_cast<int>(bytes.size()));
}
template <class T>
void bind_value(SQLite::Statement& statement, int index, const std::optional<T>& value) {
    if (value)
        bind_value(statement, index, *value);
    else
        statement.bind(index);
}

template <class... Values>
[[nodiscard]] SQLite::Statement prepared(const SQLite::Database& db, const std::string& sql,
                                         const Values&... values) {
    SQLite::Statement statement(db, sql);
    int index = 0;
    (bind_value(statement, ++index, values), ...);
    return statement;
}

template <class... Values>
void execute(SQLite::Database& db, const std::string& sql, const Values&... values) {
    prepared(db, sql, values...).exec();
}

// The number of the new row.
template <class NewId, class... Values>
NewId insert(SQLite::Database& db, const std::string& sql, const Values&... values) {
    execute(db, sql, values...);
    return NewId{db.getLastInsertRowid()};
}

// ---- Out of a row ----

namespace detail {
template <class T>
struct FromColumn;
template <>
struct FromColumn<std::string> {
    static std::string get(const SQLite::Column& column) { return column.getString(); }
};
template <>
struct FromColumn<double> {
    static double get(const SQLite::Column& column) { return column.getDouble(); }
};
template <std::integral T>
struct FromColumn<T> {
    static T get(const SQLite::Column& column) { return static_cast<T>(column.getInt64()); }
};
template <class Unit>
struct FromColumn<Quantity<Unit>> {
    static Quantity<Unit> get(const SQLite::Column& column) {
        return Quantity<Unit>(column.getDouble());
    }
};
template <>
struct FromColumn<Celsius> {
    static Celsius get(const SQLite::Column& column) { return Celsius(column.getDouble()); }
};
template <>
struct FromColumn<Date> {
    static Date get(const SQLite::Column& column) { return parse_date(column.getString(), {}); }
};
template <class Tag>
struct FromColumn<Id<Tag>> {
    static Id<Tag> get(const SQLite::Column& column) { return {column.getInt64()}; }
};
// The schema's CHECKs hold these to the words that have a value.
template <>
struct FromColumn<IngredientKind> {
    static IngredientKind get(const SQLite::Column& column) {
        return ingredient_kind_of_name(column.getString()).value();
    }
};
template <>
struct FromColumn<ProteinBasis> {
    static ProteinBasis get(const SQLite::Column& column) {
        return protein_basis_of_name(column.getString()).value();
    }
};
template <>
struct FromColumn<PictureKind> {
    static PictureKind get(const SQLite::Column& column) {
        return picture_kind_of_name(column.getString()).value();
    }
};
template <>
struct FromColumn<TargetKind> {
    static TargetKind get(const SQLite::Column& column) {
        return target_kind_of_name(column.getString()).value();
    }
};
template <>
struct FromColumn<std::vector<std::uint8_t>> {
    static std::vector<std::uint8_t> get(const SQLite::Column& column) {
        const auto* const bytes = static_cast<const std::uint8_t*>(column.getBlob());
        return {bytes, bytes + column.getBytes()};
    }
};
template <class T>
struct FromColumn<std::optional<T>> {
    static std::optional<T> get(const SQLite::Column& column) {
        if (column.isNull()) return std::nullopt;
        return FromColumn<T>::get(column);
    }
};
}  // namespace detail

// Takes the columns of a statement's current row from left to right. Members of a braced
// initialiser are evaluated in order, so that a record is filled in the order of its SELECT.
class Row {
  public:
    explicit Row(SQLite::Statement& statement) : statement_(statement) {}

    template <class T>
    [[nodiscard]] T take() {
        return detail::FromColumn<T>::get(statement_.getColumn(next_++));
    }
    // take() into what is already there.
    template <class T>
    void into(T& target) {
        target = take<T>();
    }

  private:
    SQLite::Statement& statement_;
    int next_ = 0;
};

}  // namespace loafmark::journal
