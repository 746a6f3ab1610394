// Export, import, backup, undo, bin and find as a person meets them, mistakes included.
#include <SQLiteCpp/Database.h>

#include <filesystem>
#include <iterator>
#include <nlohmann/json.hpp>
#include <thread>

#include "catch.h"
#include "made_photo.h"
#include "process.h"

namespace loafmark::end_to_end {
namespace {

void fill(const Kitchen& kitchen) {
    (void)kitchen.done({"flour", "add", "White", "--grain", "wheat"});
    (void)kitchen.done({"flour", "add", "Rye", "--grain", "rye"});
    (void)kitchen.done({"formula", "add", "Plain", "--flour", "White=80%", "--flour", "Rye=20%",
                        "--water", "68%", "--salt", "2%", "--yeast", "1%"});
    for (const char* const day : {"2026-03-01", "2026-03-02", "2026-03-03"})
        (void)kitchen.done({"bake", "add", "--formula", "Plain", "--dough", "900g", "--date", day});
}

// One message on stderr, and the exit code.
std::string refusal(const Kitchen& kitchen, const std::vector<std::string>& command, int code) {
    const Finished finished = kitchen.run(command);
    CHECK(finished.exit_code == code);
    CHECK(finished.err.find("loafmark: error: ") == 0);
    CHECK(finished.err.find('\n') == finished.err.size() - 1);
    return finished.err;
}

}  // namespace

TEST_CASE("bad imports are refused with the place, in one line, and nothing is lost") {
    const Kitchen kitchen;
    fill(kitchen);
    (void)kitchen.done({"export", "-o", "all.json"});
    const std::string good = kitchen.read("all.json");
    kitchen.write("cut.json", good.substr(0, good.size() / 2));
    kitchen.write("notes.json", "Dear diary");
    kitchen.write("empty.json", "");
    CHECK(refusal(kitchen, {"import", "cut.json"}, 1)
              .find("cut.json: this is no JSON document: line") != std::string::npos);
    CHECK(refusal(kitchen, {"import", "notes.json"}, 1).find("line 1, column 1") !=
          std::string::npos);
    (void)refusal(kitchen, {"import", "empty.json"}, 1);
    (void)refusal(kitchen, {"import", "nowhere.json"}, 1);
    (void)refusal(kitchen, {"import"}, 2);
    (void)refusal(kitchen, {"import", "all.json", "--conflicts", "both"}, 2);
    CHECK(kitchen.done({"import", "all.json"}) == "Nothing new: all of it is here already.\n");
    CHECK(kitchen.done({"check"}).find("The journal is whole") == 0);
}

TEST_CASE("conflicts are listed with both sides, and an option settles them") {
    const Kitchen kitchen;
    fill(kitchen);
    (void)kitchen.done({"export", "-o", "then.json"});
    (void)kitchen.done({"bake", "edit", "1", "--title", "Sunday loaf"});
    const Finished refused = kitchen.run({"import", "then.json"});
    CHECK(refused.exit_code == 1);
    CHECK(refused.out.find("Sunday loaf") != std::string::npos);
    CHECK(refused.err.find("--conflicts mine") != std::string::npos);
    (void)kitchen.done({"import", "then.json", "--conflicts", "mine"});
    CHECK(kitchen.done({"bake", "show", "1"}).find("Sunday loaf") != std::string::npos);
    (void)kitchen.done({"import", "then.json", "--conflicts", "theirs"});
    CHECK(kitchen.done({"bake", "show", "1"}).find("Sunday loaf") == std::string::npos);
}

TEST_CASE("without a file to write, an export goes to stdout, its photos into the folder named") {
    const Kitchen kitchen;
    fill(kitchen);
    write_mat_photo(kitchen / "slice.png");
    (void)kitchen.run({"slice", "add", "1", "slice.png"});
    auto shown = nlohmann::json::parse(kitchen.done({"export"}));
    (void)kitchen.done({"export", "-o", "all.json", "--photos", "copies"});
    auto written = nlohmann::json::parse(kitchen.read("all.json"));
    shown.erase("exported_at");
    written.erase("exported_at");
    CHECK(shown == written);
    const std::filesystem::directory_iterator copies(kitchen / "copies");
    CHECK(std::distance(begin(copies), end(copies)) == 1);
    CHECK(kitchen.done({"export", "--csv", "bakes"}).find("Plain") != std::string::npos);
}

TEST_CASE("tables for spreadsheets carry no formulas") {
    const Kitchen kitchen;
    fill(kitchen);
    (void)kitchen.done({"bake", "edit", "1", "--note", "=HYPERLINK(\"x\")", "--title", "@risk"});
    (void)kitchen.done({"export", "--csv", "bakes", "-o", "bakes.csv"});
    const std::string csv = kitchen.read("bakes.csv");
    CHECK(csv.find(",'@risk,") != std::string::npos);
    CHECK(csv.find("\"'=HYPERLINK(\"\"x\"\")\"") != std::string::npos);
    CHECK(std::count(csv.begin(), csv.end(), '\n') == 4);
    (void)kitchen.done({"export", "--csv", "readings", "-o", "readings.csv"});
    (void)refusal(kitchen, {"export", "--csv", "flours", "-o", "x.csv"}, 2);
    (void)refusal(kitchen, {"export", "--csv", "bakes", "--photos", "folder", "-o", "x.csv"}, 2);
    (void)refusal(kitchen, {"export", "-o", "no/such/folder/x.json"}, 1);
}

TEST_CASE("backups do not replace files, and restore says where the old journal is") {
    const Kitchen kitchen;
    fill(kitchen);
    (void)kitchen.done({"backup", "b.tar"});
    CHECK(refusal(kitchen, {"backup", "b.tar"}, 1).find("never replaces") != std::string::npos);
    (void)refusal(kitchen, {"backup", "no/such/b.tar"}, 1);
    (void)refusal(kitchen, {"restore", "nothing.tar"}, 1);
    kitchen.write("photo.jpg", "not a backup");
    CHECK(refusal(kitchen, {"restore", "photo.jpg"}, 1).find("is no backup of a journal") !=
          std::string::npos);
    (void)kitchen.done({"drop", "bake", "last"});
    const std::string out = kitchen.done({"restore", "b.tar"});
    CHECK(out.find("3 bakes") != std::string::npos);
    CHECK(out.find("kept/before-restore-") != std::string::npos);
    CHECK(kitchen.done({"bake", "list"}).find("2026-03-03") != std::string::npos);
}

TEST_CASE("a backup is whole though another program holds the journal open and writes") {
    const Kitchen kitchen;
    fill(kitchen);
    SQLite::Database other((kitchen / "journal/loafmark.db").string(), SQLite::OPEN_READWRITE);
    other.exec("BEGIN IMMEDIATE; UPDATE bake SET notes = 'half'");
    (void)kitchen.done({"backup", "b.tar"});
    other.exec("ROLLBACK");
    CHECK(kitchen.done({"--journal", "look", "restore", "b.tar"}).find("3 bakes") !=
          std::string::npos);
    CHECK(kitchen.done({"--journal", "look", "check"}).find("whole") != std::string::npos);
}

TEST_CASE("of two programs that write at once the second waits") {
    const Kitchen kitchen;
    fill(kitchen);
    SQLite::Database other((kitchen / "journal/loafmark.db").string(), SQLite::OPEN_READWRITE);
    other.exec("BEGIN IMMEDIATE");
    std::thread release([&] {
        std::this_thread::sleep_for(std::chrono::milliseconds(700));
        other.exec("COMMIT");
    });
    const Finished add = kitchen.run({"flour", "add", "Oat"});
    release.join();
    CHECK(add.exit_code == 0);
    CHECK(add.took > std::chrono::milliseconds(300));
}

TEST_CASE("undo, the bin and set-aside from the command line") {
    const Kitchen kitchen;
    CHECK(refusal(kitchen, {"undo"}, 1).find("there is no change") != std::string::npos);
    fill(kitchen);
    CHECK(kitchen.done({"undo"}).find("added: bake") != std::string::npos);
    CHECK(kitchen.done({"undo", "--list"}).find("taken back") != std::string::npos);
    (void)kitchen.done({"redo"});
    CHECK(kitchen.done({"drop", "bake", "2026-03-02"}).find("loafmark bin back bake 2") !=
          std::string::npos);
    CHECK(kitchen.done({"find"}).find("2026-03-02") == std::string::npos);
    CHECK(kitchen.done({"bin", "list"}).find("2026-03-02") != std::string::npos);
    (void)refusal(kitchen, {"bin", "empty"}, 2);
    (void)refusal(kitchen, {"bin", "back", "bake", "9"}, 1);
    (void)refusal(kitchen, {"drop", "cake", "9"}, 2);
    (void)refusal(kitchen, {"drop", "slice", "x"}, 2);
    (void)kitchen.done({"bin", "back", "bake", "Plain"});
    CHECK(kitchen.done({"find"}).find("2026-03-02") != std::string::npos);
    (void)refusal(kitchen, {"set-aside", "last"}, 2);
    CHECK(kitchen.done({"set-aside", "last", "--because", "oven went out"})
              .find("set aside (oven went out)") != std::string::npos);
    (void)kitchen.done({"report", "-o", "r.html"});
    CHECK(kitchen.read("r.html").find("1 set aside: shown, but counted nowhere") !=
          std::string::npos);
    (void)kitchen.done({"set-aside", "last", "--back"});
    (void)kitchen.done({"drop", "bake", "1"});
    (void)kitchen.done({"bin", "empty", "--sure"});
    CHECK(kitchen.done({"bin", "list"}) == "The bin is empty.\n");
}

TEST_CASE("find sorts, pages and takes shares, days, bags and words") {
    const Kitchen kitchen;
    fill(kitchen);
    (void)kitchen.done({"bag", "add", "White", "--mass", "5kg"});
    (void)kitchen.done({"bake", "add", "--formula", "Plain", "--dough", "700g", "--date",
                        "2026-03-04", "--handling", "tacky", "--leaven", "starter"});
    const auto first = [&](std::vector<std::string> more) {
        more.insert(more.begin(), "find");
        const std::string out = kitchen.done(more);
        const std::size_t at = out.find("2026-03-");
        return at == std::string::npos ? out : out.substr(at, 10);
    };
    CHECK(first({}) == "2026-03-01");
    CHECK(first({"--sort", "-date"}) == "2026-03-04");
    CHECK(first({"--sort", "flour_mass"}) == "2026-03-04");
    CHECK(first({"--limit", "2", "--page", "2"}) == "2026-03-03");
    CHECK(kitchen.done({"find", "--limit", "2"}).find("More: --page 2") != std::string::npos);
    CHECK(first({"--share", "rye=15..25", "--sort", "-number"}) == "2026-03-04");
    CHECK(first({"--share", "rye=50.."}) == "No bake fits.\n");
    CHECK(first({"--bag", "1"}) == "2026-03-04");
    CHECK(first({"--day", "2026-03-02"}) == "2026-03-02");
    CHECK(first({"--leaven", "starter"}) == "2026-03-04");
    CHECK(first({"--where", "handling TACKY"}) == "2026-03-04");
    CHECK(first({"--sort", "openness"}) == "2026-03-01");
    (void)refusal(kitchen, {"find", "--sort", "opennes"}, 1);
    (void)refusal(kitchen, {"find", "--page", "2"}, 2);
    (void)refusal(kitchen, {"find", "--share", "rye"}, 2);
    (void)refusal(kitchen, {"find", "--bag", "77"}, 1);
    (void)refusal(kitchen, {"find", "--day", "2026-03-01", "--since", "2026-03-01"}, 2);
}

}  // namespace loafmark::end_to_end
