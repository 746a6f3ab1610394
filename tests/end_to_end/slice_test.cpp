// Photos filed under bakes.
#include <SQLiteCpp/SQLiteCpp.h>

#include <nlohmann/json.hpp>

#include "catch.h"
#include "journal/journal.h"
#include "made_photo.h"
#include "process.h"

namespace loafmark::end_to_end {
namespace {

void add_bakes(const Kitchen& kitchen, int count) {
    kitchen.done({"flour", "add", "Emmer", "--grain", "emmer"});
    kitchen.done({"formula", "add", "Plain", "--flour", "Emmer=100%", "--water", "70%"});
    for (int i = 1; i <= count; ++i)
        kitchen.done({"bake", "add", "--formula", "plain", "--dough", "900g", "--date",
                      "2026-03-0" + std::to_string(i), "--title", "Bake " + std::to_string(i)});
}

std::size_t slices_of(const Kitchen& kitchen, const std::string& bake) {
    const auto document = nlohmann::json::parse(kitchen.done({"slice", "show", bake, "--json"}));
    return document["slices"].size();
}

void check_whole(const Kitchen& kitchen) {
    const auto folder = kitchen / "journal";
    const journal::Journal journal = journal::Journal::open(folder);  // clears what was left half
    SQLite::Database db((folder / "loafmark.db").string());
    CHECK(db.execAndGet("PRAGMA integrity_check").getString() == "ok");
    CHECK_FALSE(SQLite::Statement(db, "PRAGMA foreign_key_check").executeStep());
    std::size_t slices = 0;
    for (const journal::BakeEntry& bake : journal.find())
        for (const journal::LoafEntry& loaf : bake.loaves)
            for (const journal::SliceEntry& slice : loaf.slices) {
                ++slices;
                CHECK(std::filesystem::exists(journal.photo_file(slice.slice.id)));
                REQUIRE(slice.reading);
                CHECK(journal.pictures(slice.reading->id).size() == 2);
                CHECK_FALSE(journal.document(slice.reading->id).empty());
            }
    CHECK(slices <= 1);
}

}  // namespace

TEST_CASE("a photo is filed with its reading, and shown again") {
    const Kitchen kitchen;
    add_bakes(kitchen, 1);
    write_mat_photo(kitchen / "slice.jpg");
    const std::string filed =
        kitchen.done({"slice", "add", "last", "slice.jpg", "--thickness", "15mm", "--place",
                      "middle", "--since-oven", "4h", "--mass", "42g"});
    CHECK(filed.starts_with("Filed slice.jpg as slice 1.\nslice.jpg (scale: mat, "));
    const std::string shown = kitchen.done({"slice", "show", "last"});
    INFO(shown);
    CHECK(shown.starts_with("Slice 1: slice.jpg, loaf 1, middle, 42 g, 4 h out of the oven\n"));
    CHECK(shown.find("loaf height") != std::string::npos);
    const std::string bake = kitchen.done({"bake", "show", "last"});
    CHECK(bake.find("slice.jpg") != std::string::npos);
    const Finished again =
        kitchen.run({"slice", "add", "last", "slice.jpg", "--thickness", "15mm"});
    CHECK(again.exit_code == 1);
    CHECK(again.err == "loafmark: error: slice.jpg is filed under bake 1 already, as slice 1\n");
}

TEST_CASE("measuring again makes a new reading, and the old one stays") {
    const Kitchen kitchen;
    add_bakes(kitchen, 1);
    write_mat_photo(kitchen / "slice.jpg");
    kitchen.done({"slice", "add", "last", "slice.jpg", "--thickness", "15mm"});
    std::filesystem::remove(kitchen / "slice.jpg");
    CHECK(kitchen.done({"slice", "remeasure", "last"}) == "Measured 1 slice again.\n");
    CHECK(kitchen.done({"slice", "show", "last"}).find("; 1 older reading\n") != std::string::npos);
    CHECK(kitchen.run({"slice", "remeasure"}).err ==
          "loafmark: error: which slices?; name a bake, or say --all\n");
}

TEST_CASE("a photo of several slices wants the bake of each") {
    const Kitchen kitchen;
    add_bakes(kitchen, 2);
    write_mat_photo(kitchen / "two.jpg", 2);
    const Finished refused = kitchen.run({"slice", "add", "1", "two.jpg", "--thickness", "15mm"});
    CHECK(refused.exit_code == 1);
    CHECK(refused.out.empty());
    CHECK(
        refused.err ==
        "loafmark: error: two.jpg shows 2 slices (1 top middle, 2 bottom middle), and one bake is "
        "named; name the bake of each, left to right, top to bottom, with --slices BAKE,BAKE\n");
    const Finished too_many = kitchen.run({"slice", "add", "two.jpg", "--slices", "1,2,2"});
    CHECK(too_many.exit_code == 1);
    CHECK(too_many.err.find("(1 top middle, 2 bottom middle), and --slices names 3; ") !=
          std::string::npos);
    CHECK(slices_of(kitchen, "1") == 0);
    kitchen.done({"slice", "add", "two.jpg", "--thickness", "15mm", "--slices", "1,2"});
    CHECK(slices_of(kitchen, "1") == 1);
    CHECK(slices_of(kitchen, "2") == 1);
}

TEST_CASE("what the mat's line measures is said once and used from then on") {
    const Kitchen kitchen;
    add_bakes(kitchen, 1);
    write_mat_photo(kitchen / "slice.jpg");
    const auto height = [&] {
        return nlohmann::json::parse(kitchen.done(
            {"slice", "show", "last", "--json"}))["slices"][0]["reading"]["loaf_height"]["value"]
            .get<double>();
    };
    CHECK(kitchen.done({"slice", "add", "last", "slice.jpg", "--thickness", "15mm"})
              .find("target --paper a4 --print-check 98.7mm") != std::string::npos);
    const double believed = height();
    CHECK(kitchen.done({"target", "--paper", "a4", "--print-check", "98.7mm"})
              .starts_with("Kept: the 100 mm line of the A4 mat measures 98.7 mm. "));
    CHECK(kitchen.done({"target", "--list"}).find("A4 mat              98.7 mm") !=
          std::string::npos);
    kitchen.done({"slice", "remeasure", "last"});
    // The outline is found anew in a frame of another scale.
    CHECK(height() == Approx(0.987 * believed).epsilon(0.004));
    // A photo of an earlier print is measured by what is said of it; that is not kept.
    kitchen.done({"slice", "remeasure", "last", "--print-check", "100mm"});
    CHECK(height() == Approx(believed).epsilon(0.001));
    CHECK(kitchen.done({"target", "--list"}).find("98.7 mm") != std::string::npos);
    kitchen.done({"target", "--paper", "a4", "--forget-check"});
    CHECK(kitchen.done({"target", "--list"}).find("98.7 mm") == std::string::npos);
    const Finished again = kitchen.run({"target", "--paper", "a4", "--forget-check"});
    CHECK(again.exit_code == 1);
    CHECK(again.err ==
          "loafmark: error: the journal keeps no print check of the A4 mat; loafmark target --list "
          "shows those that it keeps\n");
}

TEST_CASE("a slice's place, cut and hours are shown; one cut warm is flagged") {
    const Kitchen kitchen;
    add_bakes(kitchen, 1);
    write_mat_photo(kitchen / "slice.jpg");
    const std::string filed =
        kitchen.done({"slice", "add", "last", "slice.jpg", "--thickness", "15mm", "--place", "1/3",
                      "--cut", "lengthwise", "--since-oven", "30min"});
    CHECK(filed.find("the loaf was cut 30 minutes after the oven: smeared cells are likely") !=
          std::string::npos);
    CHECK(kitchen.done({"slice", "show", "last"})
              .starts_with("Slice 1: slice.jpg, loaf 1, one third, cut lengthwise, 0.5 h out of "
                           "the oven\n"));
    const Finished wrong = kitchen.run({"slice", "add", "last", "slice.jpg", "--place", "top"});
    CHECK(wrong.exit_code == 2);
    CHECK(wrong.err ==
          "loafmark: error: --place 'top' is no place along the loaf; write middle, one third, two "
          "thirds or end\n");
}

TEST_CASE("an end slice is left out of trends unless asked for") {
    const Kitchen kitchen;
    add_bakes(kitchen, 1);
    write_mat_photo(kitchen / "slice.jpg");
    kitchen.done({"slice", "add", "last", "slice.jpg", "--thickness", "15mm", "--place", "end"});
    CHECK(kitchen.done({"trend", "openness"}).find("1 end slice (--with-ends takes ends in)") !=
          std::string::npos);
    const auto with =
        nlohmann::json::parse(kitchen.done({"trend", "openness", "--with-ends", "--json"}));
    CHECK(with["groups"][0]["n_bakes"] == 1);
    CHECK(with["n_end_slices"] == 0);
}

TEST_CASE("a photo without a slice is not filed") {
    const Kitchen kitchen;
    add_bakes(kitchen, 1);
    write_mat_photo(kitchen / "mat.jpg", 0);
    const Finished finished = kitchen.run({"slice", "add", "last", "mat.jpg"});
    CHECK(finished.exit_code == 1);
    CHECK(finished.err.starts_with("loafmark: error: no slice seen in mat.jpg; "));
    CHECK(slices_of(kitchen, "1") == 0);
}

TEST_CASE("a bake or loaf that is not there is refused before anything is measured") {
    const Kitchen kitchen;
    add_bakes(kitchen, 1);
    const Finished bake = kitchen.run({"slice", "add", "Bakk 1", "slice.jpg"});
    CHECK(bake.exit_code == 1);
    CHECK(bake.err == "loafmark: error: there is no bake 'Bakk 1'; did you mean 'Bake 1'?\n");
    const Finished loaf = kitchen.run({"slice", "add", "last", "slice.jpg", "--loaf", "2"});
    CHECK(loaf.exit_code == 2);
    CHECK(loaf.err == "loafmark: error: bake 1 (Bake 1) has no loaf 2; it has 1\n");
}

TEST_CASE("a filing that is killed leaves the journal whole") {
    const Kitchen kitchen;
    add_bakes(kitchen, 1);
    write_mat_photo(kitchen / "slice.jpg");
    const std::vector<std::string> filing{"slice",     "add",         "last",
                                          "slice.jpg", "--thickness", "15mm"};
    // How long one takes, in a journal of its own.
    const Kitchen other;
    add_bakes(other, 1);
    write_mat_photo(other / "slice.jpg");
    const Finished undisturbed = other.run(filing);
    REQUIRE(undisturbed.exit_code == 0);
    // Early, and densely towards the end, where the journal is written.
    for (const double part : {0.02, 0.3, 0.6, 0.8, 0.86, 0.9, 0.93, 0.96, 0.98, 1.0, 1.02}) {
        const auto after = std::chrono::microseconds(
            static_cast<long>(part * static_cast<double>(undisturbed.took.count())));
        (void)kitchen.run_and_kill(filing, after);
        check_whole(kitchen);
    }
    // And it can be gone on with.
    if (slices_of(kitchen, "1") == 0) kitchen.done(filing);
    CHECK(slices_of(kitchen, "1") == 1);
}

}  // namespace loafmark::end_to_end
