#include "journal/database.h"

#include <SQLiteCpp/Statement.h>
#include <sqlite3.h>

#include <string_view>
#include <thread>

#include "arithmetic/near_names.h"
#include "arithmetic/numbers.h"

namespace loafmark::journal {
namespace {

// folded(text) in SQL, for searches whatever the case.
void folded_in_sql(sqlite3_context* context, int, sqlite3_value** arguments) {
    const auto* const text = reinterpret_cast<const char*>(sqlite3_value_text(arguments[0]));
    if (text == nullptr) return sqlite3_result_null(context);
    const auto length = static_cast<std::size_t>(sqlite3_value_bytes(arguments[0]));
    const std::string result = folded(std::string_view(text, length));
    sqlite3_result_text(context, result.c_str(), static_cast<int>(result.size()), SQLITE_TRANSIENT);
}

SQLite::Database opened(const std::string& name, int flags, std::chrono::milliseconds wait) {
    SQLite::Database db(name, flags, static_cast<int>(wait.count()));
    db.createFunction("folded", 1, true, nullptr, folded_in_sql, nullptr, nullptr, nullptr);
    return db;
}

// Two programs may make one journal at the same moment.
void use_wal(SQLite::Database& db, std::chrono::milliseconds wait_for_others) {
    exec_when_free(db, "PRAGMA journal_mode = WAL", wait_for_others);
}

// Reading works: the first page, and in WAL mode the files beside it.
void probe(const SQLite::Database& db) {
    SQLite::Statement(db, "SELECT count(*) FROM sqlite_schema").executeStep();
}

bool has_changes_beside(const std::filesystem::path& file) {
    std::error_code none;
    const auto size = std::filesystem::file_size(file.string() + "-wal", none);
    return !none && size > 0;
}

// A path as SQLite's URIs want it.
std::string uri_of(const std::filesystem::path& file) {
    constexpr std::string_view plain =
        "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789/-._~";
    constexpr std::string_view digits = "0123456789ABCDEF";
    std::string uri = "file:";
    for (const char c : std::filesystem::absolute(file).string()) {
        const auto byte = static_cast<unsigned char>(c);
        if (plain.find(c) != std::string_view::npos)
            uri += c;
        else
            uri.append({'%', digits[byte >> 4], digits[byte & 15]});
    }
    return uri;
}

bool cannot_write(const SQLite::Exception& exception) {
    return exception.getErrorCode() == SQLITE_CANTOPEN ||
           exception.getErrorCode() == SQLITE_READONLY;
}

}  // namespace

void exec_when_free(SQLite::Database& db, const char* sql, std::chrono::milliseconds wait) {
    const auto give_up = std::chrono::steady_clock::now() + wait;
    for (;;) {
        try {
            db.exec(sql);
            return;
        } catch (const SQLite::Exception& exception) {
            if (exception.getErrorCode() != SQLITE_BUSY ||
                std::chrono::steady_clock::now() > give_up)
                throw;
            std::this_thread::sleep_for(std::chrono::milliseconds(10));
        }
    }
}

SQLite::Database open_to_write(const std::filesystem::path& file,
                               std::chrono::milliseconds wait_for_others) {
    SQLite::Database db =
        opened(file.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE, wait_for_others);
    if (sqlite3_db_readonly(db.getHandle(), "main") != 0)
        throw Error("the journal " + file.parent_path().string() + " cannot be written to");
    use_wal(db, wait_for_others);
    db.exec("PRAGMA foreign_keys = ON");
    // FULL: what was said to be done survives a power cut. NORMAL would risk the last entries in
    // WAL mode, to save one flush an entry.
    db.exec("PRAGMA synchronous = FULL");
    return db;
}

SQLite::Database open_to_read(const std::filesystem::path& file,
                              std::chrono::milliseconds wait_for_others) {
    try {
        // Opened as if for writing, so that the files beside the database are made while others
        // write and are cleared away at the end; SQLite falls back to reading where it may not
        // write.
        SQLite::Database db = opened(file.string(), SQLite::OPEN_READWRITE, wait_for_others);
        db.exec("PRAGMA query_only = ON");
        probe(db);
        return db;
    } catch (const SQLite::Exception& exception) {
        if (!cannot_write(exception)) throw;
    }
    if (has_changes_beside(file))
        throw Error("the journal " + file.parent_path().string() +
                    " was not closed properly, and its last entries cannot be read where it cannot "
                    "be written to; copy the folder to where it can");
    return open_unchanging(file);
}

SQLite::Database open_unchanging(const std::filesystem::path& file) {
    SQLite::Database db =
        opened(uri_of(file) + "?mode=ro&immutable=1", SQLite::OPEN_READONLY | SQLite::OPEN_URI, {});
    probe(db);
    return db;
}

Error in_words(const SQLite::Exception& exception, const std::filesystem::path& folder,
               std::chrono::milliseconds wait_for_others) {
    const std::string journal = "the journal " + folder.string();
    const double seconds = static_cast<double>(wait_for_others.count()) / 1000;
    switch (exception.getErrorCode()) {
        case SQLITE_BUSY:
        case SQLITE_LOCKED:
            return Error(journal + " is being written by another program; waited " +
                         number_text(seconds) + " s, then did nothing");
        case SQLITE_READONLY:
        case SQLITE_CANTOPEN:
            return Error(journal + " cannot be written to");
        case SQLITE_FULL:
            return Error(journal + " has no room left on its disk; nothing was changed");
        case SQLITE_CORRUPT:
        case SQLITE_NOTADB:
            return Error(journal + " is damaged: " + exception.what());
        default:
            return Error(journal + ": " + exception.what());
    }
}

}  // namespace loafmark::journal
