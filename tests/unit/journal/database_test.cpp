#include "journal/database.h"

#include <SQLiteCpp/Statement.h>
#include <SQLiteCpp/Transaction.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <functional>
#include <map>
#include <thread>

#include "catch.h"
#include "example_journal.h"

using namespace loafmark;
using namespace loafmark::journal;

namespace {

constexpr std::chrono::milliseconds short_wait{50};

// Every file below the folder with its content.
std::map<std::string, std::string> content_of(const std::filesystem::path& folder) {
    std::map<std::string, std::string> files;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(folder))
        files[entry.path().string()] = entry.is_regular_file() ? read_text(entry.path()) : "";
    return files;
}

// Takes the right to write from the folder's files and folders, or gives it back.
void make_writable(const std::filesystem::path& folder, bool writable) {
    const auto change = [&](const std::filesystem::path& path, bool is_folder) {
        ::chmod(path.c_str(), (is_folder ? 0555 : 0444) | (writable ? 0200 : 0));
    };
    for (const auto& entry : std::filesystem::recursive_directory_iterator(folder))
        change(entry.path(), entry.is_directory());
    change(folder, true);
}

// Runs `work` in a child process without the superuser's rights, whom permissions do not bind;
// gives the message of what it throws, or "done".
std::string without_privileges(const std::function<void()>& work) {
    int ends[2];
    if (::pipe(ends) != 0) return "no pipe";
    const pid_t child = ::fork();
    if (child == 0) {
        std::string answer = "done";
        if (::geteuid() == 0 && (::setgid(65534) != 0 || ::setuid(65534) != 0))
            answer = "privileges not dropped";
        else if (const std::string message = message_of(work); !message.empty())
            answer = message;
        const auto written = ::write(ends[1], answer.data(), answer.size());
        ::_exit(written < 0 ? 1 : 0);
    }
    ::close(ends[1]);
    std::string answer(4096, '\0');
    const auto length = ::read(ends[0], answer.data(), answer.size());
    ::close(ends[0]);
    ::waitpid(child, nullptr, 0);
    answer.resize(length < 0 ? 0 : static_cast<std::size_t>(length));
    return answer;
}

// A journal with one bake, closed, in a folder that nobody may write to.
struct Sealed {
    TemporaryFolder folder;
    std::filesystem::path path = folder / "journal";
    Sealed() {
        Journal journal = Journal::open(path, fixed_environment());
        const Flour white = journal.add_flour(new_flour("White"));
        const auto formula = plain_formula(journal, "Plain", white, 0.7);
        (void)journal.add_bake(new_bake(formula, {2026, 3, 1}));
        ::chmod(folder.path().c_str(), 0755);
    }
    void seal() { make_writable(path, false); }
    ~Sealed() { make_writable(path, true); }
    Sealed(const Sealed&) = delete;
    Sealed& operator=(const Sealed&) = delete;
};

}  // namespace

TEST_CASE("a journal open for writing keeps references, uses WAL and flushes each commit") {
    TemporaryFolder folder;
    SQLite::Database db = open_to_write(folder / "loafmark.db", short_wait);
    CHECK(db.execAndGet("PRAGMA foreign_keys").getInt() == 1);
    CHECK(db.execAndGet("PRAGMA journal_mode").getString() == "wal");
    CHECK(db.execAndGet("PRAGMA synchronous").getInt() == 2);  // FULL
    CHECK(db.execAndGet("PRAGMA busy_timeout").getInt() == 50);
    db.exec("CREATE TABLE a (id INTEGER PRIMARY KEY); CREATE TABLE b (a REFERENCES a)");
    CHECK_THROWS_AS(db.exec("INSERT INTO b VALUES (1)"), SQLite::Exception);
}

TEST_CASE("a journal is made on first use, its folder too") {
    TemporaryFolder folder;
    const auto path = folder / "a" / "b";
    CHECK_FALSE(Journal::exists(path));
    const Journal journal = Journal::open(path);
    CHECK(Journal::exists(path));
    CHECK(journal.folder() == path);
    CHECK(journal.find().empty());
}

TEST_CASE("a journal that is not there or not a folder is named") {
    TemporaryFolder folder;
    CHECK(message_of([&] { (void)Journal::open_for_reading(folder / "none"); }) ==
          "there is no journal in " + (folder / "none").string());
    CHECK_FALSE(std::filesystem::exists(folder / "none"));
    write_text(folder / "file", "");
    CHECK(message_of([&] { (void)Journal::open(folder / "file"); }) ==
          (folder / "file").string() + " is not a folder");
    CHECK(message_of([&] { (void)Journal::open_for_reading(folder / "file"); }) ==
          (folder / "file").string() + " is not a folder");
    CHECK(message_of([&] {
              (void)Journal::open(folder / "file" / "journal");
          }).find((folder / "file" / "journal").string() + " cannot be made") == 0);
}

TEST_CASE("a journal open for reading writes nothing") {
    ExampleJournal example;
    (void)example.bake_with_slice({2026, 3, 1}, 0.3);
    { const Journal closing = std::move(example.journal); }
    const auto before = content_of(example.path);
    {
        Journal reading = Journal::open_for_reading(example.path);
        CHECK(reading.find().size() == 1);
        CHECK(message_of([&] { (void)reading.add_flour(new_flour("Emmer")); }) ==
              "the journal " + example.path.string() + " is open for reading only");
        CHECK(message_of([&] { (void)reading.file_photo("x", {}); }) ==
              "the journal " + example.path.string() + " is open for reading only");
    }
    CHECK(content_of(example.path) == before);
}

TEST_CASE("SQLite itself refuses to write for a reader") {
    ExampleJournal example;
    SQLite::Database reader = open_to_read(example.path / "loafmark.db", short_wait);
    CHECK_THROWS_AS(reader.exec("DELETE FROM flour"), SQLite::Exception);
    SQLite::Database unchanging = open_unchanging(example.path / "loafmark.db");
    CHECK_THROWS_AS(unchanging.exec("DELETE FROM flour"), SQLite::Exception);
    CHECK(example.journal.flours().size() == 2);
}

TEST_CASE("a reader sees what a writer has committed, and only that") {
    ExampleJournal example;
    const Journal reading = Journal::open_for_reading(example.path);
    CHECK(reading.flours().size() == 2);
    (void)example.journal.add_flour(new_flour("Emmer"));
    CHECK(reading.flours().size() == 3);
    SQLite::Database other((example.path / "loafmark.db").string(), SQLite::OPEN_READWRITE);
    other.exec("BEGIN IMMEDIATE; UPDATE flour SET name = 'changed'");
    CHECK(reading.flour(example.white.id).name == "Strong white");
}

TEST_CASE("an unchanging file is read without a trace beside it, whatever its name") {
    TemporaryFolder folder;
    const auto odd = folder / "50% rye? #1 \u00e4";
    { Journal::open(odd, fixed_environment()).add_flour(new_flour("Emmer")); }
    const auto before = content_of(odd);
    SQLite::Database db = open_unchanging(odd / "loafmark.db");
    CHECK(db.execAndGet("SELECT name FROM flour").getString() == "Emmer");
    CHECK(content_of(odd) == before);
}

TEST_CASE("a journal that cannot be written to can be read") {
    Sealed sealed;
    sealed.seal();
    const auto before = content_of(sealed.path);
    CHECK(without_privileges([&] {
              const Journal journal = Journal::open_for_reading(sealed.path);
              if (journal.find().size() != 1) throw Error("not all was read");
          }) == "done");
    CHECK(content_of(sealed.path) == before);
    CHECK(without_privileges([&] { (void)Journal::open(sealed.path); }) ==
          "the journal " + sealed.path.string() + " cannot be written to");
}

TEST_CASE("a sealed journal with entries that were not put away is refused, not read in part") {
    Sealed sealed;
    {
        // A copy taken while another program had it open: entries beside the database.
        Journal journal = Journal::open(sealed.path);
        (void)journal.add_flour(new_flour("Emmer"));
        std::filesystem::copy_file(sealed.path / "loafmark.db-wal", sealed.folder / "wal");
    }
    std::filesystem::copy_file(sealed.folder / "wal", sealed.path / "loafmark.db-wal");
    sealed.seal();
    CHECK(without_privileges([&] {
              (void)Journal::open_for_reading(sealed.path);
          }).find("was not closed properly") != std::string::npos);
    make_writable(sealed.path, true);
    CHECK(Journal::open_for_reading(sealed.path).flours().size() == 2);
}

TEST_CASE("who writes while another is writing waits, then succeeds") {
    ExampleJournal example;
    SQLite::Database other((example.path / "loafmark.db").string(), SQLite::OPEN_READWRITE);
    other.exec("BEGIN IMMEDIATE");
    std::thread releases([&] {
        std::this_thread::sleep_for(std::chrono::milliseconds(100));
        other.exec("COMMIT");
    });
    CHECK(example.journal.add_flour(new_flour("Emmer")).name == "Emmer");
    releases.join();
}

TEST_CASE("who waited in vain for another program is told so, and nothing was done") {
    ExampleJournal example;
    Journal hasty = Journal::open(example.path, fixed_environment(short_wait));
    SQLite::Database other((example.path / "loafmark.db").string(), SQLite::OPEN_READWRITE);
    other.exec("BEGIN IMMEDIATE");
    CHECK(message_of([&] { (void)hasty.add_flour(new_flour("Emmer")); }) ==
          "the journal " + example.path.string() +
              " is being written by another program; waited 0.05 s, then did nothing");
    CHECK(hasty.flours().size() == 2);  // reading needs no waiting
    other.exec("ROLLBACK");
    CHECK(hasty.add_flour(new_flour("Emmer")).name == "Emmer");
}

TEST_CASE("several programs may make one journal at the same moment") {
    TemporaryFolder folder;
    std::vector<std::string> messages(4);
    std::vector<std::thread> programs;
    for (std::size_t i = 0; i < messages.size(); ++i)
        programs.emplace_back([&, i] {
            messages[i] = message_of([&] {
                Journal::open(folder / "new").add_flour(new_flour("Flour " + std::to_string(i)));
            });
        });
    for (std::thread& program : programs)
        program.join();
    CHECK(messages == std::vector<std::string>(4));
    CHECK(Journal::open_for_reading(folder / "new").flours().size() == 4);
}
