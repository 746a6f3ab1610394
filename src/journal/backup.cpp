#include "journal/backup.h"

#include <SQLiteCpp/Backup.h>
#include <SQLiteCpp/Exception.h>
#include <SQLiteCpp/Statement.h>
#include <sqlite3.h>

#include "journal/database.h"
#include "journal/durable_files.h"
#include "journal/error.h"
#include "journal/tar.h"

namespace loafmark::journal {
namespace {

// Goes with what it names.
struct TemporaryFile {
    std::filesystem::path path;
    ~TemporaryFile() {
        std::error_code ignored;
        std::filesystem::remove(path, ignored);
    }
};

}  // namespace

void copy_content(SQLite::Database& from, SQLite::Database& to) {
    const int code = SQLite::Backup(to, from).executeStep(-1);
    if (code != SQLITE_DONE) throw SQLite::Exception("the database is locked", code);
}

void copy_database(SQLite::Database& from, const std::filesystem::path& to) {
    std::filesystem::remove(to);
    SQLite::Database copy(to.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
    copy_content(from, copy);
    copy.exec("PRAGMA journal_mode = DELETE");
}

BackupCounts back_up(SQLite::Database& db, const PhotoStore& photos,
                     const std::filesystem::path& file) {
    if (std::filesystem::exists(file)) throw Error(file.string() + " is there already");
    const std::filesystem::path folder = std::filesystem::absolute(file).parent_path();
    if (!std::filesystem::is_directory(folder))
        throw Error("there is no folder " + folder.string());
    const TemporaryFile snapshot{file.string() + ".db-part"};
    const TemporaryFile archive{file.string() + ".part"};
    copy_database(db, snapshot.path);
    SQLite::Database copy(snapshot.path.string(), SQLite::OPEN_READONLY);
    SQLite::Statement sound(copy, "PRAGMA quick_check(1)");
    if (!sound.executeStep() || sound.getColumn(0).getString() != "ok")
        throw Error("the journal's database is damaged: " + sound.getColumn(0).getString());

    BackupCounts counts;
    TarWriter tar(archive.path);
    std::string sums = tar.add(database_name, snapshot.path) + "  " + database_name + "\n";
    SQLite::Statement rows(copy, "SELECT hash, extension FROM photo ORDER BY hash");
    while (rows.executeStep()) {
        const std::string hash = rows.getColumn(0).getString();
        const std::string extension = rows.getColumn(1).getString();
        const std::filesystem::path photo = photos.file_of(hash, extension);
        if (!std::filesystem::exists(photo))
            throw Error("the photo " + photo.string() + " is no longer there");
        const std::string name = "photos/" + hash.substr(0, 2) + "/" + hash + extension;
        if (tar.add(name, photo) != hash)
            throw Error("the photo " + photo.string() + " is not what it was when it was filed");
        sums += hash + "  " + name + "\n";
        ++counts.photos;
    }
    tar.add_text("SHA256SUMS", sums);
    tar.finish();
    counts.bytes = std::filesystem::file_size(archive.path);
    move_durably(archive.path, std::filesystem::absolute(file));
    return counts;
}

}  // namespace loafmark::journal
