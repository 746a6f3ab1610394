#include "journal/bin.h"

#include <SQLiteCpp/Exception.h>
#include <sqlite3.h>

#include <algorithm>
#include <array>

#include "journal/changes.h"
#include "journal/checks.h"
#include "journal/rows.h"

namespace loafmark::journal {
namespace {

// How each is called in the bin. A bag has no name of its own.
struct Kind {
    const char* table;
    const char* name_sql;
};
constexpr std::array kinds{
    Kind{"flour", "name"},
    Kind{"bag", "'bag of ' || (SELECT name FROM flour WHERE flour.id = bag.flour)"},
    Kind{"formula", "name"},
    Kind{"bake", "title || ', ' || (SELECT date FROM bake_day WHERE bake_day.id = bake.bake_day)"},
    Kind{"slice", "photo_name"},
};
const Kind& kind_of(Droppable kind) {
    return kinds.at(static_cast<std::size_t>(kind));
}

std::vector<Dropped> listed(const Store& store, const Kind& kind, const std::string& where) {
    const std::string table = kind.table;
    SQLite::Statement statement(store.db, std::string("SELECT id, ") + kind.name_sql +
                                              ", dropped_at FROM " + table + " WHERE " + where);
    std::vector<Dropped> all;
    while (statement.executeStep()) {
        Row row(statement);
        Dropped& one = all.emplace_back();
        one.table = table;
        row.into(one.number);
        row.into(one.name);
        one.dropped_at = row.take<std::optional<std::string>>().value_or("");
    }
    return all;
}

Dropped the_one(const Store& store, const Kind& kind, std::int64_t number) {
    auto found = listed(store, kind, "id = " + std::to_string(number));
    if (found.empty())
        throw NotFound("there is no " + std::string(kind.table) + " " + std::to_string(number), {});
    return found.front();
}

// What is gone when its owner goes. Anything else that refers to a thing keeps it.
void remove(SQLite::Database& db, const std::string& table, std::int64_t number) {
    struct Owned {
        const char* owner;
        const char* table;
        const char* column;
    };
    constexpr std::array owned{Owned{"bake", "loaf", "bake"}, Owned{"loaf", "slice", "loaf"},
                               Owned{"slice", "reading", "slice"},
                               Owned{"formula", "formula_version", "formula"}};
    for (const Owned& below : owned) {
        if (table != below.owner) continue;
        auto rows = prepared(
            db, std::string("SELECT id FROM ") + below.table + " WHERE " + below.column + " = ?",
            number);
        while (rows.executeStep())
            remove(db, below.table, rows.getColumn(0).getInt64());
    }
    constexpr std::array parts{
        Owned{"formula_version", "ingredient", "formula_version"},
        Owned{"bake", "mixed_amount", "bake"},
        Owned{"bake", "bake_step", "bake"},
        Owned{"slice", "slice_thickness", "slice"},
        Owned{"reading", "reading_value", "reading"},
        Owned{"reading", "reading_warning", "reading"},
        Owned{"reading", "reading_cells", "reading"},
        Owned{"reading", "reading_picture", "reading"},
    };
    for (const Owned& part : parts)
        if (table == part.owner)
            execute(db, std::string("DELETE FROM ") + part.table + " WHERE " + part.column + " = ?",
                    number);
    execute(db, "DELETE FROM " + table + " WHERE id = ?", number);
}

// Whether it went; false where something that stays refers to it.
bool removed(SQLite::Database& db, const Dropped& dropped) {
    db.exec("SAVEPOINT emptying");
    try {
        remove(db, dropped.table, dropped.number);
        db.exec("RELEASE emptying");
        return true;
    } catch (const SQLite::Exception& exception) {
        if (exception.getErrorCode() != SQLITE_CONSTRAINT) throw;
        db.exec("ROLLBACK TO emptying; RELEASE emptying");
        return false;
    }
}

std::vector<StoredPhotoName> remove_photos_without_slices(SQLite::Database& db) {
    SQLite::Statement statement(
        db,
        "DELETE FROM photo WHERE id NOT IN (SELECT photo FROM slice) RETURNING hash, extension");
    std::vector<StoredPhotoName> photos;
    while (statement.executeStep())
        photos.push_back({statement.getColumn(0).getString(), statement.getColumn(1).getString()});
    return photos;
}

}  // namespace

Dropped drop(Store& store, Droppable which, std::int64_t number) {
    const Kind& kind = kind_of(which);
    const Dropped before = the_one(store, kind, number);
    if (!before.dropped_at.empty())
        throw Error(before.table + " " + std::to_string(number) + " (" + before.name +
                    ") is in the bin already");
    execute(store.db, std::string("UPDATE ") + kind.table + " SET dropped_at = ? WHERE id = ?",
            store.now(), number);
    return the_one(store, kind, number);
}

Dropped take_out(Store& store, Droppable which, std::int64_t number) {
    const Kind& kind = kind_of(which);
    const Dropped before = the_one(store, kind, number);
    if (before.dropped_at.empty())
        throw Error(before.table + " " + std::to_string(number) + " (" + before.name +
                    ") is not in the bin");
    execute(store.db, std::string("UPDATE ") + kind.table + " SET dropped_at = NULL WHERE id = ?",
            number);
    return the_one(store, kind, number);
}

std::vector<Dropped> bin(const Store& store) {
    std::vector<Dropped> all;
    for (const Kind& kind : kinds) {
        const auto of_kind = listed(store, kind, "dropped_at IS NOT NULL");
        all.insert(all.end(), of_kind.begin(), of_kind.end());
    }
    std::ranges::stable_sort(all, std::ranges::greater(), &Dropped::dropped_at);
    return all;
}

EmptiedRows empty_bin(Store& store) {
    EmptiedRows emptied;
    // From what hangs on others to what they hang on: a bag goes before its flour.
    for (const Droppable which :
         {Droppable::slice, Droppable::bake, Droppable::formula, Droppable::bag, Droppable::flour})
        for (const Dropped& one : listed(store, kind_of(which), "dropped_at IS NOT NULL"))
            if (removed(store.db, one))
                ++emptied.gone;
            else
                emptied.kept.push_back(one);
    emptied.photos = remove_photos_without_slices(store.db);
    if (emptied.gone > 0) forget_changes(store.db);
    return emptied;
}

void set_aside(Store& store, BakeId bake, const std::optional<std::string>& reason) {
    if (reason) (void)not_empty(*reason, "the reason");
    if (prepared(store.db, "UPDATE bake SET set_aside = ? WHERE id = ?", reason, bake).exec() == 0)
        throw NotFound("there is no bake " + std::to_string(bake.value), {});
}

}  // namespace loafmark::journal
