#include <SQLiteCpp/Statement.h>
#include <sqlite3.h>

#include <algorithm>
#include <fstream>
#include <map>
#include <sstream>

#include "journal/backup.h"
#include "journal/database.h"
#include "journal/durable_files.h"
#include "journal/journal_impl.h"
#include "journal/tar.h"

namespace loafmark::journal {
namespace {

// A folder to unpack in, within the journal's so that moving out of it is a rename.
class WorkFolder {
  public:
    explicit WorkFolder(std::filesystem::path path) : path_(std::move(path)) {
        std::filesystem::create_directories(path_);
    }
    ~WorkFolder() {
        std::error_code ignored;
        std::filesystem::remove_all(path_, ignored);
    }
    WorkFolder(const WorkFolder&) = delete;
    WorkFolder& operator=(const WorkFolder&) = delete;
    [[nodiscard]] std::filesystem::path operator/(const std::string& name) const {
        return path_ / name;
    }

  private:
    std::filesystem::path path_;
};

bool is_database(const std::filesystem::path& file) {
    std::ifstream in(file, std::ios::binary);
    std::string head(15, '\0');
    return in.read(head.data(), 15) && head == "SQLite format 3";
}

// photos/ab/ab12...f.jpg: nothing else of an archive is written anywhere.
bool is_photo_name(const std::string& name) {
    const auto hexadecimal = [](char c) {
        return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f');
    };
    if (!name.starts_with("photos/") || name.size() < 10 + 64 || name[9] != '/') return false;
    const std::string hash = name.substr(10, 64);
    const std::string ending = name.substr(74);
    const auto plain = [](char c) {
        return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || c == '.';
    };
    return std::ranges::all_of(hash, hexadecimal) && name.substr(7, 2) == hash.substr(0, 2) &&
           std::ranges::all_of(ending, plain);
}

using Sums = std::map<std::string, std::string>;  // by name

Sums sums_of(const std::string& text) {
    Sums sums;
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);)
        if (line.size() > 66) sums[line.substr(66)] = line.substr(0, 64);
    return sums;
}

// Unpacks and checks against its own sums. The names of its photos.
std::vector<std::string> unpack(const std::filesystem::path& file, const WorkFolder& work) {
    const Error no_backup(file.string() + " is no backup of a journal");
    TarReader tar(file);
    Sums found;
    std::optional<Sums> told;
    std::vector<std::string> photos;
    bool is_ours = false;
    try {
        while (const auto name = tar.next()) {
            is_ours = is_ours || *name == database_name;
            if (*name == "SHA256SUMS") {
                told = sums_of(tar.text());
            } else if (*name == database_name || is_photo_name(*name)) {
                found[*name] = tar.extract(work / *name);
                if (*name != database_name) photos.push_back(*name);
            } else {
                throw no_backup;
            }
        }
    } catch (const Error&) {
        if (!is_ours) throw no_backup;
        throw;
    }
    if (!told || !told->contains(database_name)) throw no_backup;
    if (found != *told)
        throw Error(file.string() + " is damaged: its files are not what its SHA256SUMS says");
    return photos;
}

int checked_bakes(const std::filesystem::path& database, const std::filesystem::path& file) try {
    SQLite::Database db(database.string(), SQLite::OPEN_READONLY);
    if (!is_journal(db) || schema_version(db) == 0)
        throw Error(file.string() + " is no backup of a journal");
    if (schema_version(db) > current_schema_version())
        throw Error(file.string() + " was written by a newer Loafmark");
    SQLite::Statement sound(db, "PRAGMA integrity_check(1)");
    if (!sound.executeStep() || sound.getColumn(0).getString() != "ok")
        throw Error(file.string() + " is damaged: " + sound.getColumn(0).getString());
    return db.execAndGet("SELECT count(*) FROM bake").getInt();
} catch (const SQLite::Exception& exception) {
    throw Error(file.string() + " is damaged: " + exception.what());
}

int place_photos(const std::vector<std::string>& names, const WorkFolder& work,
                 const std::filesystem::path& folder) {
    int brought = 0;
    for (const std::string& name : names) {
        std::error_code absent;
        const auto there = std::filesystem::file_size(folder / name, absent);
        if (!absent && there == std::filesystem::file_size(work / name)) continue;
        move_durably(work / name, folder / name);
        ++brought;
    }
    return brought;
}

// Nobody else has it open from here on. Error after `wait`.
void lock_out_others(SQLite::Database& db, std::chrono::milliseconds wait) {
    db.exec("PRAGMA locking_mode = EXCLUSIVE");
    exec_when_free(db, "BEGIN EXCLUSIVE; COMMIT", wait);
}

std::filesystem::path name_aside(const std::filesystem::path& folder, const std::string& why,
                                 std::string stamp, const std::string& ending) {
    std::erase(stamp, ':');
    std::filesystem::path name;
    int number = 1;
    do {
        name = folder / "kept" /
               (why + "-" + stamp + (number > 1 ? "-" + std::to_string(number) : "") + ending);
        ++number;
    } while (std::filesystem::exists(name));
    return name;
}

// The old journal aside, then the new one in its place, in one transaction of the live database:
// whoever opens it, also after a kill, finds the one or the other.
std::filesystem::path replace(const std::filesystem::path& folder,
                              const std::filesystem::path& restored, const std::string& stamp,
                              std::chrono::milliseconds wait) {
    SQLite::Database live((folder / database_name).string(), SQLite::OPEN_READWRITE,
                          static_cast<int>(wait.count()));
    lock_out_others(live, wait);
    const auto aside = name_aside(folder, "before-restore", stamp, ".db");
    std::filesystem::create_directories(aside.parent_path());
    const std::filesystem::path part = aside.string() + ".part";
    copy_database(live, part);
    flush_file(part);
    move_durably(part, aside);
    live.exec("PRAGMA synchronous = FULL");
    SQLite::Database source(restored.string(), SQLite::OPEN_READONLY);
    copy_content(source, live);
    return aside;
}

// A database that SQLite cannot read is put aside as it lies. What is beside it goes first: without
// its database it is nothing, and beside another it would do harm.
std::filesystem::path put_damaged_aside(const std::filesystem::path& folder,
                                        const std::filesystem::path& restored,
                                        const std::string& stamp) {
    const auto aside = name_aside(folder, "damaged", stamp, "");
    std::filesystem::create_directories(aside);
    const auto file = folder / database_name;
    std::filesystem::copy_file(file, aside / database_name);
    for (const char* const beside : {"-wal", "-shm"})
        if (std::filesystem::exists(file.string() + beside))
            move_durably(file.string() + beside, aside / (std::string(database_name) + beside));
    move_durably(restored, file);
    return aside;
}

bool is_damage(const SQLite::Exception& exception) {
    return exception.getErrorCode() == SQLITE_CORRUPT || exception.getErrorCode() == SQLITE_NOTADB;
}

Restored restored(const std::filesystem::path& folder, const std::filesystem::path& file,
                  const Environment& environment, const std::string& stamp,
                  const std::string& uid) {
    const WorkFolder work(folder / ("restoring-" + uid));
    const std::filesystem::path database = work / database_name;
    std::vector<std::string> photos;
    if (is_database(file))
        (void)copy_durably(file, database);
    else
        photos = unpack(file, work);
    Restored result;
    result.bakes = checked_bakes(database, file);
    result.photos = place_photos(photos, work, folder);
    if (!Journal::exists(folder)) {
        move_durably(database, folder / database_name);
        return result;
    }
    try {
        result.aside = replace(folder, database, stamp, environment.wait_for_others);
    } catch (const SQLite::Exception& exception) {
        if (!is_damage(exception)) throw;
        result.aside = put_damaged_aside(folder, database, stamp);
    }
    return result;
}

}  // namespace

Restored Journal::restore(const std::filesystem::path& folder, const std::filesystem::path& file,
                          Environment environment) {
    std::error_code absent;
    if (!std::filesystem::is_regular_file(file, absent))
        throw Error("there is no file " + file.string());
    make_folders(folder);
    SQLite::Database none(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
    const Store store(none, environment);
    try {
        Restored result = restored(folder, file, environment, store.now(), store.new_uid());
        (void)open(folder, environment);  // brings an older one up to date
        return result;
    } catch (const SQLite::Exception& exception) {
        throw in_words(exception, folder, environment.wait_for_others);
    } catch (const std::filesystem::filesystem_error& failure) {
        throw Error("the journal " + folder.string() + ": " + failure.what());
    }
}

}  // namespace loafmark::journal
