// Tests of backup.cpp, restore.cpp, tar.cpp and checkup.cpp through Journal.
#include <SQLiteCpp/Database.h>

#include <algorithm>
#include <cstdlib>
#include <sstream>

#include "catch.h"
#include "example_journal.h"

using namespace loafmark;
using namespace loafmark::journal;

namespace {

std::string exported(const Journal& journal) {
    std::ostringstream json;
    (void)journal.export_to(json, std::nullopt);
    return json.str();
}
std::string exported(const std::filesystem::path& folder) {
    return exported(Journal::open_for_reading(folder, fixed_environment()));
}

void close(Journal& journal) {
    const Journal gone = std::move(journal);
}

}  // namespace

TEST_CASE("a backup, restored elsewhere, is the same journal with its photos") {
    ExampleJournal example;
    (void)example.bake_with_slice({2026, 3, 1}, 0.3);
    const auto file = example.folder / "backup.tar";
    CHECK(example.journal.back_up(file).photos == 1);
    CHECK_THROWS_AS(example.journal.back_up(file), Error);  // never replaces one
    const auto elsewhere = example.folder / "elsewhere";
    const Restored restored = Journal::restore(elsewhere, file, fixed_environment());
    CHECK(restored.bakes == 1);
    CHECK(restored.photos == 1);
    CHECK_FALSE(restored.aside);
    CHECK(exported(elsewhere) == exported(example.journal));
    CHECK(Journal::open_for_reading(elsewhere, fixed_environment()).check().empty());
}

// GNU tar and coreutils know nothing of this program.
TEST_CASE("tar unpacks a backup to a journal's folder, and sha256sum finds it whole") {
    if (std::system("tar --version > /dev/null 2>&1") != 0) return;
    ExampleJournal example;
    (void)example.bake_with_slice({2026, 3, 1}, 0.3);
    (void)example.journal.back_up(example.folder / "backup.tar");
    const std::string folder = (example.folder / "unpacked").string();
    const std::string command = "mkdir " + folder + " && cd " + folder +
                                " && tar xf ../backup.tar && sha256sum --quiet -c SHA256SUMS";
    CHECK(std::system(command.c_str()) == 0);
    CHECK(exported(folder) == exported(example.journal));
}

TEST_CASE("restoring puts aside what stands there, and that restores in turn") {
    ExampleJournal example;
    (void)example.bake_with_slice({2026, 3, 1}, 0.3);
    const auto file = example.folder / "backup.tar";
    (void)example.journal.back_up(file);
    const std::string then = exported(example.journal);
    (void)example.bake_with_slice({2026, 3, 2}, 0.4);
    const std::string now = exported(example.journal);
    close(example.journal);

    const Restored restored = Journal::restore(example.path, file, fixed_environment());
    CHECK(exported(example.path) == then);
    REQUIRE(restored.aside);
    const Restored back = Journal::restore(example.path, *restored.aside, fixed_environment());
    CHECK(exported(example.path) == now);
    REQUIRE(back.aside);
    CHECK(*back.aside != *restored.aside);
    CHECK(Journal::open_for_reading(example.path, fixed_environment()).check().empty());
}

TEST_CASE("while somebody has the journal open, restoring waits and then says so") {
    ExampleJournal example;
    const auto file = example.folder / "backup.tar";
    (void)example.journal.back_up(file);
    const std::string before = exported(example.journal);
    CHECK(message_of([&] {
              (void)Journal::restore(example.path, file,
                                     fixed_environment(std::chrono::milliseconds(50)));
          }).find("is being written by another program") != std::string::npos);
    CHECK(exported(example.journal) == before);
}

TEST_CASE("a damaged backup is refused, and the journal stays as it is") {
    ExampleJournal example;
    (void)example.bake_with_slice({2026, 3, 1}, 0.3);
    const auto file = example.folder / "backup.tar";
    (void)example.journal.back_up(file);
    const std::string good = read_text(file);
    const std::string before = exported(example.journal);
    close(example.journal);
    const auto refusal = [&](const std::string& content) {
        write_text(file, content);
        const std::string message =
            message_of([&] { (void)Journal::restore(example.path, file, fixed_environment()); });
        CHECK(exported(example.path) == before);
        return message.substr(std::min(message.size(), file.string().size()));
    };
    CHECK(refusal(good.substr(0, good.size() / 2)) == " is cut short or damaged");
    std::string changed = good;
    changed[good.find("photo of 1")] = 'P';
    CHECK(refusal(changed) == " is damaged: its files are not what its SHA256SUMS says");
    CHECK(refusal("") == " is no backup of a journal");
    CHECK(refusal("just some text").find(" is no backup") == 0);
    CHECK(refusal(std::string(4096, 'x')) == " is no backup of a journal");
    CHECK(refusal("SQLite format 3").find("") == 0);
    for (const auto& entry : std::filesystem::directory_iterator(example.path))
        CHECK(entry.path().filename().string().find("restoring") == std::string::npos);
}

TEST_CASE("a database beyond reading is put aside as it lies, and the backup takes its place") {
    ExampleJournal example;
    const auto file = example.folder / "backup.tar";
    (void)example.journal.back_up(file);
    const std::string before = exported(example.journal);
    close(example.journal);
    write_text(example.path / "loafmark.db", std::string(9000, '?'));
    CHECK_THROWS_AS(Journal::open(example.path, fixed_environment()), Error);
    const Restored restored = Journal::restore(example.path, file, fixed_environment());
    CHECK(exported(example.path) == before);
    REQUIRE(restored.aside);
    CHECK(read_text(*restored.aside / "loafmark.db") == std::string(9000, '?'));
}

TEST_CASE("check finds what is wrong, and mends what follows from other things") {
    ExampleJournal example;
    const BakeEntry bake = example.bake_with_slice({2026, 3, 1}, 0.3);
    Journal& journal = example.journal;
    CHECK(journal.check().empty());
    SQLite::Database db((example.path / "loafmark.db").string(), SQLite::OPEN_READWRITE);
    const auto only = [&] {
        const auto findings = journal.check();
        REQUIRE(findings.size() == 1);
        return findings[0];
    };
    const auto mended = [&] {
        const auto findings = journal.mend();
        return findings.size() == 1 && findings[0].mended && journal.check().empty();
    };
    SECTION("a name that is not found") {
        db.exec("UPDATE flour SET name_folded = 'x' WHERE id = 1");
        CHECK(only().what == "the flour 'Strong white' is not found by its name");
        CHECK(mended());
    }
    SECTION("figures of bakes") {
        db.exec("UPDATE bake_figures SET hydration_percent = 1");
        CHECK(only().what == "figures of bakes do not agree with what was mixed");
        CHECK(mended());
    }
    SECTION("values of slices") {
        db.exec("DELETE FROM slice_value");
        CHECK(mended());
    }
    SECTION("what a restore left") {
        std::filesystem::create_directories(example.path / "restoring-1/photos");
        CHECK(mended());
    }
    SECTION("a photo that is gone") {
        std::filesystem::remove(journal.photo_file(bake.loaves[0].slices[0].slice.id));
        CHECK(only().what.find("is no longer there") != std::string::npos);
        CHECK_FALSE(mended());
        CHECK_THROWS_AS(journal.back_up(example.folder / "b.tar"), Error);
        CHECK_FALSE(std::filesystem::exists(example.folder / "b.tar.part"));
    }
    SECTION("a photo that changed") {
        write_text(journal.photo_file(bake.loaves[0].slices[0].slice.id), "other");
        CHECK(only().what.find("is not what it was") != std::string::npos);
    }
    SECTION("a formula that does not make 100 %") {
        db.exec("UPDATE ingredient SET share_of_flour = 0.9 WHERE kind = 'flour'");
        CHECK(only().what ==
              "the flour of formula Plain loaf, version 1, makes 90.0 % instead of 100 %");
    }
    SECTION("something that is not there") {
        db.exec("PRAGMA foreign_keys = OFF; DELETE FROM loaf");
        CHECK(journal.check().size() >= 2);
    }
    SECTION("a file that belongs to no bake is only told") {
        (void)journal.undo();
        CHECK(only().harmless);
    }
}
