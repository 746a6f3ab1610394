// The session extension stands in sqlite3.h only where these are set; the library has it.
#define SQLITE_ENABLE_SESSION
#define SQLITE_ENABLE_PREUPDATE_HOOK
#include "journal/changes.h"

#include <SQLiteCpp/Exception.h>
#include <sqlite3.h>

#include <algorithm>
#include <map>

#include "journal/rows.h"
#include "journal/things.h"

namespace loafmark::journal {
namespace {

constexpr int changes_kept = 20;
constexpr int largest_note_bytes = 64'000'000;

void check(SQLite::Database& db, int code) {
    if (code != SQLITE_OK) throw SQLite::Exception(db.getHandle(), code);
}

// Tables of things and of parts: what follows from them is written by triggers each time.
std::vector<std::string> noted_tables(const SQLite::Database& db) {
    std::vector<std::string> tables;
    for (const Thing& thing : things_of(db)) {
        tables.push_back(thing.table);
        for (const Part& part : thing.parts)
            tables.push_back(part.table);
    }
    return tables;
}

struct Freed {
    void operator()(void* memory) const { sqlite3_free(memory); }
};
struct Note {
    int size = 0;
    std::unique_ptr<void, Freed> bytes;
};

struct Touched {
    std::map<std::string, int> added, changed, gone;  // by table
};

Touched touched_by(SQLite::Database& db, const Note& note) {
    Touched touched;
    sqlite3_changeset_iter* row = nullptr;
    check(db, sqlite3changeset_start(&row, note.size, note.bytes.get()));
    while (sqlite3changeset_next(row) == SQLITE_ROW) {
        const char* table = nullptr;
        int columns = 0;
        int operation = 0;
        int indirect = 0;
        sqlite3changeset_op(row, &table, &columns, &operation, &indirect);
        auto& counts = operation == SQLITE_INSERT   ? touched.added
                       : operation == SQLITE_UPDATE ? touched.changed
                                                    : touched.gone;
        ++counts[table];
    }
    check(db, sqlite3changeset_finalize(row));
    return touched;
}

// "2 loaves" is more than a table knows: "loaf 2 times" reads worse than "2 x loaf".
std::string listed(const std::map<std::string, int>& counts, const std::string& verb) {
    std::string list;
    for (const auto& [table, count] : counts)
        list += (list.empty() ? "" : ", ") + (count == 1 ? "" : std::to_string(count) + " x ") +
                words_for(table);
    return list.empty() ? "" : verb + ": " + list;
}

// "added: bake, loaf". Parts are named only where no thing was touched.
std::string words_for(const std::vector<Thing>& things, const Touched& touched) {
    const auto only_things = [&](std::map<std::string, int> counts) {
        std::erase_if(counts, [&](const auto& entry) {
            return entry.first == "photo" ||
                   std::ranges::find(things, entry.first, &Thing::table) == things.end();
        });
        return counts;
    };
    const auto joined = [](std::initializer_list<std::string> parts) {
        std::string all;
        for (const std::string& part : parts)
            if (!part.empty()) all += (all.empty() ? "" : "; ") + part;
        return all;
    };
    const std::string words = joined({listed(only_things(touched.added), "added"),
                                      listed(only_things(touched.changed), "changed"),
                                      listed(only_things(touched.gone), "removed")});
    if (!words.empty()) return words;
    return joined({listed(touched.added, "added"), listed(touched.changed, "changed"),
                   listed(touched.gone, "removed")});
}

struct KeptChange {
    Change change;
    std::int64_t id = 0;
    std::optional<std::vector<std::uint8_t>> note;
};

std::optional<KeptChange> kept_change(const Store& store, const std::string& which) {
    auto statement =
        prepared(store.db, "SELECT id, made_at, words, undone, changeset FROM change " + which);
    if (!statement.executeStep()) return std::nullopt;
    Row row(statement);
    KeptChange kept;
    row.into(kept.id);
    row.into(kept.change.made_at);
    row.into(kept.change.words);
    row.into(kept.change.undone);
    row.into(kept.note);
    return kept;
}

// Nothing is written over: any row that differs ends it.
int stop(void*, int, sqlite3_changeset_iter*) {
    return SQLITE_CHANGESET_ABORT;
}

void apply(Store& store, const KeptChange& kept, int flags) {
    if (!kept.note)
        throw Error("the change of " + kept.change.made_at + " (" + kept.change.words +
                    ") was too large to be kept for taking back");
    auto note = *kept.note;
    const int code =
        sqlite3changeset_apply_v2(store.db.getHandle(), static_cast<int>(note.size()), note.data(),
                                  nullptr, stop, nullptr, nullptr, nullptr, flags);
    if (code == SQLITE_ABORT || code == SQLITE_CONSTRAINT)
        throw Error("the change of " + kept.change.made_at + " (" + kept.change.words +
                    ") cannot be taken back or made again: the journal was changed since by other "
                    "means");
    check(store.db, code);
}

}  // namespace

Recording::Recording(SQLite::Database& db) : db_(db), tables_(noted_tables(db)) {
    check(db, sqlite3session_create(db.getHandle(), "main", &session_));
    for (const std::string& table : tables_)
        check(db, sqlite3session_attach(session_, table.c_str()));
}

Recording::~Recording() {
    sqlite3session_delete(session_);
}

void Recording::keep(Store& store) {
    if (sqlite3session_isempty(session_) != 0) return;
    Note note;
    void* bytes = nullptr;
    check(db_, sqlite3session_changeset(session_, &note.size, &bytes));
    note.bytes.reset(bytes);
    if (note.size == 0) return;  // rows that were written and are as they were
    const std::string words = words_for(things_of(db_), touched_by(db_, note));
    execute(db_, "DELETE FROM change WHERE undone");
    SQLite::Statement kept(db_, "INSERT INTO change (made_at, words, changeset) VALUES (?, ?, ?)");
    kept.bind(1, store.now());
    kept.bind(2, words);
    if (note.size <= largest_note_bytes)
        kept.bindNoCopy(3, note.bytes.get(), note.size);
    else
        kept.bind(3);
    kept.exec();
    execute(db_, "DELETE FROM change WHERE id <= (SELECT max(id) FROM change) - ?", changes_kept);
}

std::vector<Change> changes(const Store& store) {
    auto statement = prepared(
        store.db,
        "SELECT made_at, words, undone, changeset IS NOT NULL FROM change ORDER BY id DESC");
    std::vector<Change> all;
    while (statement.executeStep()) {
        Row row(statement);
        Change& change = all.emplace_back();
        row.into(change.made_at);
        row.into(change.words);
        row.into(change.undone);
        row.into(change.can_be_undone);
    }
    return all;
}

Change undo(Store& store) {
    auto kept = kept_change(store, "WHERE NOT undone ORDER BY id DESC LIMIT 1");
    if (!kept) throw Error("there is no change that could be taken back");
    apply(store, *kept, SQLITE_CHANGESETAPPLY_INVERT);
    execute(store.db, "UPDATE change SET undone = 1 WHERE id = ?", kept->id);
    kept->change.undone = true;
    return kept->change;
}

Change redo(Store& store) {
    auto kept = kept_change(store, "WHERE undone ORDER BY id LIMIT 1");
    if (!kept) throw Error("there is no change that was taken back and could be made again");
    apply(store, *kept, 0);
    execute(store.db, "UPDATE change SET undone = 0 WHERE id = ?", kept->id);
    kept->change.undone = false;
    return kept->change;
}

void forget_changes(SQLite::Database& db) {
    if (db.tableExists("change")) db.exec("DELETE FROM change");
}

}  // namespace loafmark::journal
