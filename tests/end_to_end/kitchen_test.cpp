// Flours, formulas and bakes.
#include <SQLiteCpp/SQLiteCpp.h>
#include <nlohmann/json.hpp>

#include "catch.h"
#include "process.h"

namespace loafmark::end_to_end {
namespace {

void add_flours(const Kitchen& kitchen) {
    kitchen.done({"flour", "add", "Strong white", "--grain", "wheat", "--grade", "white",
                  "--protein", "12.5%", "--protein-basis", "pack_eu"});
    kitchen.done({"flour", "add", "Emmer", "--grain", "emmer"});
}

void add_country(const Kitchen& kitchen) {
    kitchen.done({"formula", "add", "Country", "--flour", "Strong white=70%", "--flour",
                  "emmer=20%", "--water", "62%", "--salt", "2%", "--starter", "20%",
                  "--starter-flour", "Strong white"});
}

void check_fails(const Kitchen& kitchen, const std::vector<std::string>& arguments, int exit_code,
                 const std::string& message) {
    const Finished finished = kitchen.run(arguments);
    CHECK(finished.err == "loafmark: error: " + message + "\n");
    CHECK(finished.out.empty());
    CHECK(finished.exit_code == exit_code);
}

}  // namespace

TEST_CASE("flours are added, listed and shown, and a second of one name is refused") {
    const Kitchen kitchen;
    add_flours(kitchen);
    CHECK(kitchen.done({"flour", "list"}) ==
          "flour         grain  grade  mill  protein\n"
          "Emmer         emmer  -      -           -\n"
          "Strong white  wheat  white  -      12.5 %\n");
    const auto document = nlohmann::json::parse(kitchen.done({"flour", "show", "white", "--json"}));
    CHECK(document["schema"] == 1);
    CHECK(document["flours"][0]["name"] == "Strong white");
    CHECK(document["flours"][0]["protein_percent"] == Approx(12.5));
    CHECK(document["flours"][0]["mill"].is_null());
    check_fails(kitchen, {"flour", "add", "EMMER"}, 1,
                "there is a flour 'Emmer' already; choose another name, or see it with loafmark "
                "flour show 'Emmer'; is it a new bag of it? loafmark bag add 'Emmer'");
    check_fails(kitchen, {"flour", "show", "Emmre"}, 1,
                "there is no flour 'Emmre'; did you mean 'Emmer'?");
}

TEST_CASE("a formula's hydration counts the starter, and scaling keeps the shares") {
    const Kitchen kitchen;
    add_flours(kitchen);
    add_country(kitchen);
    const std::string shown = kitchen.done({"formula", "show", "country"});
    INFO(shown);
    CHECK(shown.find("72 %") != std::string::npos);  // (62 + 10) / (70 + 20 + 10)
    const auto scaled = nlohmann::json::parse(
        kitchen.done({"formula", "scale", "country", "--flour", "500g", "--json"}));
    CHECK(scaled["amounts"][0]["grams"] == Approx(350));
    CHECK(scaled["amounts"][2]["grams"] == Approx(310));
    CHECK(scaled["dough_grams"] == Approx(870));
    kitchen.done({"formula", "add", "country", "--new-version", "--flour", "Strong white=100%",
                  "--water", "70%"});
    CHECK(kitchen.done({"formula", "list"}) ==
          "formula  version  hydration\n"
          "Country        2       70 %\n");
}

TEST_CASE("formulas that cannot be are refused with the reason") {
    const Kitchen kitchen;
    add_flours(kitchen);
    add_country(kitchen);
    check_fails(kitchen,
                {"formula", "add", "X", "--flour", "Strong white=70%", "--flour", "Emmer=15%",
                 "--starter", "20%", "--starter-flour", "Emmer"},
                2,
                "the flours add to 95 % (Strong white 70 %, Emmer 15 %, in the starter 10 %); all "
                "flour, the starter's included, must add to 100 %");
    check_fails(kitchen, {"formula", "add", "X", "--flour", "Emmre=100%", "--water", "70%"}, 1,
                "there is no flour 'Emmre'; did you mean 'Emmer'? Or add it: loafmark flour add "
                "'Emmre'");
    check_fails(kitchen, {"formula", "add", "X", "--flour", "Spelt=100%", "--water", "70%"}, 1,
                "there is no flour 'Spelt'; add it: loafmark flour add 'Spelt'");
    check_fails(kitchen, {"formula", "add", "X", "--flour", "Emmer=100%", "--water", "7O%"}, 2,
                "--water '7O%' is not a percentage; write it as 70%");
    check_fails(kitchen, {"formula", "add", "country", "--flour", "Emmer=100%", "--water", "70%"},
                1,
                "there is a formula 'Country' already; add --new-version to make this its version "
                "2, or choose another name");
    check_fails(kitchen, {"formula", "scale", "country"}, 2,
                "say in one way how much: dough, flour, dough of each loaf, tin or bake; write "
                "--dough 900g, --flour 500g, --loaves 2 --each 900g, --tin 'small tin' or "
                "--same-dough-as last");
}

TEST_CASE("a bake keeps what was mixed, and its hydration follows from it") {
    const Kitchen kitchen;
    add_flours(kitchen);
    add_country(kitchen);
    const std::string added = kitchen.done({"bake",
                                            "add",
                                            "--formula",
                                            "country",
                                            "--date",
                                            "2026-03-01",
                                            "--flour",
                                            "500g",
                                            "--with",
                                            "water=335g",
                                            "--tin",
                                            "small tin",
                                            "--baked",
                                            "790g",
                                            "--handling",
                                            "Supple",
                                            "--room",
                                            "21C",
                                            "--dough-temperature",
                                            "76F",
                                            "--title",
                                            "Country, wetter"});
    CHECK(added == "Added bake 1: 2026-03-01 Country, wetter, hydration as mixed 77 %.\n");
    const auto found = nlohmann::json::parse(kitchen.done({"bake", "show", "last", "--json"}));
    CHECK(found["bakes"][0]["date"] == "2026-03-01");
    CHECK(found["bakes"][0]["hydration_percent"] == Approx(77));
    const std::string shown = kitchen.done({"bake", "show", "1 March"});
    INFO(shown);
    CHECK(shown.find("335 g") != std::string::npos);
    CHECK(shown.find("24.4 °C") != std::string::npos);
    CHECK(shown.find("small tin") != std::string::npos);
    CHECK(kitchen.done({"bake", "list"}).find("Country, wetter") != std::string::npos);
}

TEST_CASE("bakes that cannot be are refused with the reason, and nothing is kept") {
    const Kitchen kitchen;
    add_flours(kitchen);
    add_country(kitchen);
    check_fails(kitchen, {"bake", "add", "--formula", "country", "--dough", "-900g"}, 2,
                "--dough '-900g' is not a mass, which is zero or more; write it like 500g");
    const Finished future = kitchen.run(
        {"bake", "add", "--formula", "country", "--dough", "1kg", "--date", "2999-01-01"});
    CHECK(future.exit_code == 2);
    CHECK(future.err.starts_with(
        "loafmark: error: --date '2999-01-01' is still to come (today is 20"));
    check_fails(kitchen,
                {"bake", "add", "--formula", "country", "--dough", "1kg", "--with", "watr=300g"}, 2,
                "--with names 'watr', which the formula has not; did you mean 'water'? it has "
                "'Strong white', 'Emmer', 'water', 'starter', 'salt'");
    check_fails(kitchen, {"bake", "add", "--formula", "contry", "--dough", "1kg"}, 1,
                "there is no formula 'contry'; did you mean 'Country'?");
    check_fails(kitchen,
                {"bake", "add", "--formula", "country", "--dough", "1kg", "--baked", "400g",
                 "--baked", "400g"},
                2,
                "--baked is given 2 times for 1 loaf; say how many loaves there are with "
                "--loaves 2");
    check_fails(kitchen,
                {"bake", "add", "--formula", "country", "--dough", "1kg", "--handling", "wet"}, 2,
                "--handling 'wet' is no handling; write stiff, firm, supple, tacky, slack or "
                "pours");
    CHECK(kitchen.done({"bake", "list"}) ==
          "No bakes yet. Add one: loafmark bake add --help shows how\n");
}

TEST_CASE("several bakes that fit are listed") {
    const Kitchen kitchen;
    add_flours(kitchen);
    add_country(kitchen);
    for (const char* date : {"2026-03-01", "2026-03-02"})
        kitchen.done({"bake", "add", "--formula", "country", "--dough", "1kg", "--date", date});
    check_fails(kitchen, {"bake", "show", "country"}, 1,
                "several bakes fit 'country'; did you mean '1: 2026-03-01 Country' or '2: "
                "2026-03-02 Country'?");
}

TEST_CASE("a journal that cannot be used is named, and what to do") {
    const Kitchen kitchen;
    const std::string remedy = "; put that right, or name another folder with --journal DIR";
    kitchen.write("file", "not a folder");
    check_fails(kitchen, {"--journal", "file", "flour", "list"}, 1,
                "file is not a folder" + remedy);
    check_fails(kitchen, {"--journal", "/proc/nowhere", "flour", "list"}, 1,
                "/proc/nowhere cannot be made: No such file or directory" + remedy);
    add_flours(kitchen);
    const std::string journal = (kitchen / "journal").string();
    SQLite::Database(journal + "/loafmark.db", SQLite::OPEN_READWRITE)
        .exec("PRAGMA user_version = 999");
    for (const auto& arguments :
         {std::vector<std::string>{"flour", "list"}, {"flour", "add", "Rye"}}) {
        const Finished newer = kitchen.run(arguments);
        CHECK(newer.exit_code == 1);
        CHECK(newer.err.starts_with("loafmark: error: the journal " + journal +
                                    " was written by a newer Loafmark (version 999 of its "
                                    "database; this one knows up to "));
        CHECK(newer.err.ends_with(remedy + "\n"));
    }
}

TEST_CASE("a journal in a folder that cannot be written to is read, and says so when written") {
    Kitchen kitchen;
    add_flours(kitchen);
    const auto journal = kitchen / "journal";
    std::filesystem::permissions(journal, std::filesystem::perms(0500));
    std::filesystem::permissions(journal / "loafmark.db", std::filesystem::perms(0400));
    kitchen.become_nobody();
    if (kitchen.run({"--version"}).exit_code != 0) {
        WARN("skipped: another user may not run the program where it was built");
        return;
    }
    CHECK(kitchen.done({"flour", "list"}).find("Emmer") != std::string::npos);
    check_fails(kitchen, {"flour", "add", "Rye"}, 1,
                "the journal " + journal.string() +
                    " cannot be written to; put that right, or name another folder with --journal "
                    "DIR");
    std::filesystem::permissions(journal, std::filesystem::perms(0700));
}

}  // namespace loafmark::end_to_end
