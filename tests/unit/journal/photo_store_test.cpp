#include "journal/photo_store.h"

#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <SQLiteCpp/Database.h>

#include <chrono>
#include <thread>

#include "catch.h"
#include "example_journal.h"

using namespace loafmark;
using namespace loafmark::journal;

namespace {

std::size_t files_in(const std::filesystem::path& folder) {
    std::size_t count = 0;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(folder))
        count += entry.is_regular_file() ? 1 : 0;
    return count;
}

// Files one photo after another, each with a reading, and writes a byte to `progress` after each.
[[noreturn]] void file_until_killed(const std::filesystem::path& folder,
                                    const std::filesystem::path& path, LoafId loaf, int progress) {
    try {
        Journal journal = Journal::open(path);
        NewReading reading = new_reading(0.3);
        reading.cell_diameters.assign(500, 1.5);
        const auto photo = folder / "busy.jpg";
        for (int i = 0;; ++i) {
            write_text(photo, std::to_string(::getpid()) + " " + std::to_string(i) +
                                  std::string(200'000, 'x'));
            (void)journal.file_photo(photo, {new_slice(loaf, reading)});
            if (::write(progress, "+", 1) != 1) ::_exit(1);
        }
    } catch (...) {
        ::_exit(1);
    }
}

// Lets a child file photos and kills it that long after its first.
void file_and_kill(const ExampleJournal& example, LoafId loaf, std::chrono::microseconds later) {
    int ends[2];
    REQUIRE(::pipe(ends) == 0);
    const pid_t child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) file_until_killed(example.folder.path(), example.path, loaf, ends[1]);
    ::close(ends[1]);
    char byte = 0;
    const auto came = ::read(ends[0], &byte, 1);
    std::this_thread::sleep_for(later);
    ::kill(child, SIGKILL);
    int status = 0;
    ::waitpid(child, &status, 0);
    ::close(ends[0]);
    REQUIRE(came == 1);
    REQUIRE(WIFSIGNALED(status));
}

}  // namespace

TEST_CASE("the leftovers of a broken-off filing go at the next opening") {
    ExampleJournal example;
    const BakeEntry bake = example.bake_with_slice({2026, 3, 1}, 0.3);
    const Slice slice = bake.loaves[0].slices[0].slice;
    const auto kept = example.journal.photo_file(slice.id);
    const std::string unfiled(64, 'a');
    const auto photos = example.path / "photos";
    const auto incoming = example.path / "incoming";
    std::filesystem::create_directories(photos / "aa");
    // Broken off while copying; between the move and the commit; between the commit and the end.
    write_text(incoming / "4711.part", "half a pho");
    write_text(photos / "aa" / (unfiled + ".jpg"), "moved");
    write_text(incoming / (unfiled + ".jpg.filing"), "");
    write_text(incoming / (kept.filename().string() + ".filing"), "");
    // Never announced: somebody put it there, or the database is an older one.
    const auto stray = photos / "bb" / (std::string(64, 'b') + ".jpg");
    std::filesystem::create_directories(stray.parent_path());
    write_text(stray, "not ours to remove");

    (void)Journal::open_for_reading(example.path);
    CHECK(files_in(incoming) == 3);
    Journal again = Journal::open(example.path);
    CHECK(files_in(incoming) == 0);
    CHECK_FALSE(std::filesystem::exists(photos / "aa" / (unfiled + ".jpg")));
    CHECK(std::filesystem::exists(stray));
    CHECK(again.photo_file(slice.id) == kept);
}

TEST_CASE("an opening does not sweep away what another program is filing") {
    ExampleJournal example;
    const auto part = example.path / "incoming" / "busy.part";
    std::filesystem::create_directories(part.parent_path());
    write_text(part, "half a photo");
    SQLite::Database other((example.path / "loafmark.db").string(), SQLite::OPEN_READWRITE);
    other.exec("BEGIN IMMEDIATE");
    (void)Journal::open(example.path, fixed_environment(std::chrono::milliseconds(50)));
    CHECK(std::filesystem::exists(part));
    other.exec("ROLLBACK");
    (void)Journal::open(example.path);
    CHECK_FALSE(std::filesystem::exists(part));
}

TEST_CASE("a program killed while filing leaves nothing half-done") {
    ExampleJournal example;
    const LoafId loaf =
        example.journal.add_bake(new_bake(example.formula, {2026, 3, 1})).loaves[0].loaf.id;
    constexpr int rounds = 15;
    std::mt19937_64 random(7);
    std::uniform_int_distribution<int> moment(0, 40'000);
    for (int round = 0; round < rounds; ++round)
        file_and_kill(example, loaf, std::chrono::microseconds(moment(random)));
    const Journal journal = Journal::open(example.path);
    const auto bakes = journal.find();
    REQUIRE(bakes.size() == 1);
    const auto& slices = bakes[0].loaves[0].slices;
    CHECK(slices.size() >= rounds);
    CHECK(files_in(example.path / "incoming") == 0);
    CHECK(files_in(example.path / "photos") == slices.size());
    for (const SliceEntry& slice : slices) {
        CHECK(std::filesystem::file_size(journal.photo_file(slice.slice.id)) > 200'000);
        REQUIRE(slice.reading);
        CHECK(slice.reading->values.size() == 2);
        CHECK(slice.reading->cell_diameters.size() == 500);
    }
    SQLite::Database db((example.path / "loafmark.db").string());
    CHECK(db.execAndGet("PRAGMA integrity_check").getString() == "ok");
    CHECK_FALSE(SQLite::Statement(db, "PRAGMA foreign_key_check").executeStep());
}

TEST_CASE("odd endings of photo names do not reach the kept file's name") {
    TemporaryFolder folder;
    const PhotoStore store(folder.path());
    const auto never_filed = [](const std::string&) -> std::optional<std::string> { return {}; };
    const auto extension_of = [&](const std::string& name) {
        write_text(folder / name, name);
        PhotoStore::Filing filing(store, folder / name, "name", never_filed);
        CHECK(
            std::filesystem::exists(store.file_of(filing.photo().hash, filing.photo().extension)));
        return filing.photo().extension;
    };
    CHECK(extension_of("a.HEIC") == ".heic");
    CHECK(extension_of("a") == "");
    CHECK(extension_of("a.j pg") == "");
    CHECK(extension_of("a.verylongending") == "");
    CHECK(extension_of("a.") == "");
    CHECK(files_in(folder / "photos") == 0);  // taken back, since nothing was committed
    CHECK(files_in(folder / "incoming") == 0);
}
