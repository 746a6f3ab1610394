// find, trend and report over a small journal.
#include <nlohmann/json.hpp>

#include "catch.h"
#include "made_photo.h"
#include "process.h"

namespace loafmark::end_to_end {
namespace {

using Json = nlohmann::json;

// Three bakes of emmer and one of rye, of rising hydration; the first has a slice.
void fill(const Kitchen& kitchen) {
    kitchen.done({"flour", "add", "Emmer", "--grain", "emmer"});
    kitchen.done({"flour", "add", "Dark rye", "--grain", "rye"});
    for (const auto& [name, flour, water] : {std::tuple{"Emmer 66", "Emmer", "66%"},
                                             {"Emmer 70", "Emmer", "70%"},
                                             {"Emmer 74", "Emmer", "74%"},
                                             {"Rye 80", "Dark rye", "80%"}}) {
        kitchen.done(
            {"formula", "add", name, "--flour", flour + std::string("=100%"), "--water", water});
        kitchen.done({"bake", "add", "--formula", name, "--dough", "900g", "--date", "2026-03-01"});
    }
    write_mat_photo(kitchen / "slice.jpg");
    kitchen.done({"slice", "add", "1", "slice.jpg", "--thickness", "15mm"});
}

std::vector<std::string> found_titles(const Kitchen& kitchen, std::vector<std::string> filter) {
    filter.insert(filter.begin(), "find");
    filter.push_back("--json");
    std::vector<std::string> titles;
    const Json document = Json::parse(kitchen.done(filter));
    CHECK(document["schema"] == 1);
    for (const Json& bake : document["bakes"])
        titles.push_back(bake["formula"].dump());
    return titles;
}

}  // namespace

TEST_CASE("find narrows by flour, grain, water, day, formula and anything measured") {
    const Kitchen kitchen;
    fill(kitchen);
    CHECK(found_titles(kitchen, {}).size() == 4);
    CHECK(found_titles(kitchen, {"--flour", "emmer"}).size() == 3);
    CHECK(found_titles(kitchen, {"--grain", "rye"}).size() == 1);
    CHECK(found_titles(kitchen, {"--hydration", "66..72"}).size() == 2);
    CHECK(found_titles(kitchen, {"--since", "2026-03-02"}).empty());
    CHECK(found_titles(kitchen, {"--formula", "Rye 80"}).size() == 1);
    CHECK(found_titles(kitchen, {"--where", "openness 0.."}).size() == 1);
    CHECK(found_titles(kitchen, {"--where", "loaf_height 200.."}).empty());
    CHECK(kitchen.done({"find", "--flour", "rye"}).find("Rye 80") != std::string::npos);
    CHECK(kitchen.done({"find", "--since", "2026-03-02"}) == "No bake fits.\n");
    CHECK(kitchen.done({"find", "--csv"}).find("Emmer 66") != std::string::npos);
    const Finished unknown = kitchen.run({"find", "--where", "opennes 0.3.."});
    CHECK(unknown.exit_code == 1);
    CHECK(unknown.err ==
          "loafmark: error: there is no measure or field 'opennes'; did you mean 'openness'?\n");
    const Finished flour = kitchen.run({"find", "--flour", "Emmre"});
    CHECK(flour.exit_code == 1);
    CHECK(flour.err == "loafmark: error: there is no flour 'Emmre'; did you mean 'Emmer'?\n");
}

TEST_CASE("a trend is printed, written as JSON and CSV, and drawn") {
    const Kitchen kitchen;
    fill(kitchen);
    CHECK_FALSE(kitchen.done({"trend", "openness"}).empty());
    const Json document = Json::parse(
        kitchen.done({"trend", "openness", "--by", "hydration", "--json", "--svg", "trend.svg"}));
    CHECK(document["measure"] == "openness");
    CHECK(document["by"] == "hydration");
    REQUIRE(document["groups"].size() == 1);
    CHECK(document["groups"][0]["n_bakes"] == 1);
    CHECK(document["groups"][0]["fit"].is_null());
    CHECK(kitchen.read("trend.svg").find("<svg") != std::string::npos);
    CHECK(kitchen.done({"trend", "openness", "--csv"}).find("Emmer") != std::string::npos);
}

TEST_CASE("the report is one page with the slices' pictures in it") {
    const Kitchen kitchen;
    fill(kitchen);
    CHECK(kitchen.done({"report", "-o", "page.html"}) == "Wrote page.html (4 bakes).\n");
    const std::string page = kitchen.read("page.html");
    CHECK(page.find("data:image/jpeg;base64,") != std::string::npos);
    CHECK(page.find("Rye 80") != std::string::npos);
    CHECK(kitchen.done({"report", "-o", "page.html", "--flour", "emmer"}) ==
          "Wrote page.html (3 bakes).\n");
    const Finished finished = kitchen.run({"report", "-o", "no/page.html"});
    CHECK(finished.exit_code == 1);
    CHECK(finished.err ==
          "loafmark: error: cannot write no/page.html (No such file or directory); choose a folder "
          "that exists and may be written to\n");
}

TEST_CASE("compare holds bakes against a control, and refuses what cannot be compared") {
    const Kitchen kitchen;
    fill(kitchen);
    kitchen.done({"slice", "add", "2", "slice.jpg", "--thickness", "15mm"});
    const Json document = Json::parse(kitchen.done({"compare", "1", "2", "--json"}));
    CHECK(document["schema"] == 1);
    CHECK(document["contenders"].size() == 2);
    CHECK(document["measures"][0]["measure"] == "loaf_height");
    CHECK(document["measures"][0]["differences"][0]["verdict"] == "cannot tell");
    const std::string text = kitchen.done({"compare", "1", "2", "--line-up", "side.svg"});
    CHECK(text.find("no one can tell yet") != std::string::npos);
    CHECK(kitchen.read("side.svg").find("one base line at one scale") != std::string::npos);
    CHECK(kitchen.read("side.svg").find("clipPath") != std::string::npos);
    kitchen.done({"compare", "1", "2", "--line-up", "side.png"});
    CHECK(kitchen.read("side.png").starts_with("\x89PNG"));
    const Finished one = kitchen.run({"compare", "1"});
    CHECK(one.exit_code == 2);
    CHECK(one.err ==
          "loafmark: error: compare wants a control and at least one more bake; write loafmark "
          "compare CONTROL BAKE\n");
    const Finished same = kitchen.run({"compare", "1", "1"});
    CHECK(same.exit_code == 1);
    CHECK(same.err.find("there is one recipe only") != std::string::npos);
}

TEST_CASE("two bakes of one recipe make a line-up, though there is nothing to compare") {
    const Kitchen kitchen;
    fill(kitchen);
    const std::string text = kitchen.done({"compare", "1", "1", "--line-up", "two.svg"});
    CHECK(text.starts_with("Wrote two.svg. Not compared: there is one recipe only"));
    CHECK(kitchen.read("two.svg").find("2 slices on one base line") != std::string::npos);
}

TEST_CASE("a line-up says what it cannot draw") {
    const Kitchen kitchen;
    fill(kitchen);
    const Finished wrong = kitchen.run({"compare", "1", "2", "--line-up", "side.gif"});
    CHECK(wrong.exit_code == 2);
    CHECK(wrong.err.find("'side.gif' is neither PNG nor SVG; write a name such as line-up.png") !=
          std::string::npos);
    const Finished nowhere = kitchen.run({"compare", "1", "2", "--line-up", "no/side.png"});
    CHECK(nowhere.exit_code == 1);
    CHECK(nowhere.err.find("cannot write no/side.png") != std::string::npos);
    // The second has no slice: the first stands alone, and it is said.
    const Finished half = kitchen.run({"compare", "1", "2", "--line-up", "half.svg"});
    CHECK(half.exit_code == 0);
    CHECK(half.err.find("is not in the line-up: no slice of it is filed") != std::string::npos);
    write_photo_without_scale(kitchen / "plain.jpg");
    kitchen.done({"slice", "add", "3", "plain.jpg"});
    const Finished none = kitchen.run({"compare", "2", "3", "--line-up", "none.svg"});
    CHECK(none.exit_code == 1);
    CHECK(none.err.find("is not in the line-up: its photo has no scale") != std::string::npos);
    CHECK(none.err.find("so there is no line-up; photograph slices on a printed target") !=
          std::string::npos);
    CHECK_FALSE(std::filesystem::exists(kitchen / "none.svg"));
}

TEST_CASE("next asks for an outcome and says what would teach most from too little") {
    const Kitchen kitchen;
    fill(kitchen);
    const Json document =
        Json::parse(kitchen.done({"next", "emmer", "--want", "tallest", "--json"}));
    CHECK(document["schema"] == 1);
    CHECK(document["measure"] == "loaf_height");
    CHECK(document["wanted"] == "most");
    CHECK(document["advice"] == "in between");
    CHECK(document["n_bakes"] == 1);
    CHECK(kitchen.done({"next", "rye", "--want", "openness 0.3"}).find("not determined") !=
          std::string::npos);
    const Finished none = kitchen.run({"next", "emmer", "--want", "nicer"});
    CHECK(none.exit_code == 2);
    CHECK(none.err ==
          "loafmark: error: --want 'nicer' is no outcome; write tallest, a measure and its value "
          "such "
          "as 'openness 0.45' or 'loaf_height 95', or a control such as 'as wheat' or 'openness as "
          "wheat'\n");
    CHECK(kitchen.run({"next", "emmer"}).exit_code == 2);
}

TEST_CASE("loaves of one dough proved for different times are told apart by --proof") {
    const Kitchen kitchen;
    fill(kitchen);
    kitchen.done({"bake", "add", "--formula", "Emmer 70", "--dough", "1.8kg", "--loaves", "2",
                  "--date", "2026-03-02", "--room", "21C", "--step", "proof=60min"});
    kitchen.done(
        {"bake", "edit", "5", "--loaf", "2", "--proof", "90min", "--proof-temperature", "4C"});
    CHECK(kitchen.done({"bake", "show", "5"}).find("proved 1h30m; proved at 4 \u00b0C") !=
          std::string::npos);
    kitchen.done({"slice", "add", "5", "slice.jpg", "--loaf", "1", "--thickness", "15mm"});
    kitchen.done({"slice", "add", "5", "slice.jpg", "--loaf", "2", "--thickness", "15mm"});
    const Json proof =
        Json::parse(kitchen.done({"trend", "loaf_height", "--by", "proof", "--json"}));
    REQUIRE(proof["groups"].size() == 1);
    CHECK(proof["groups"][0]["n_bakes"] == 1);
    CHECK(proof["groups"][0]["points"].size() == 2);
    CHECK(proof["groups"][0]["points"][1]["x"] == 90);
    const Json common =
        Json::parse(kitchen.done({"trend", "loaf_height", "--by", "proof-at-25C", "--json"}));
    CHECK(common["groups"][0]["points"].size() == 1);
    CHECK(common["common_temperature"]["n_loaves_outside"] == 1);
    const Finished wrong = kitchen.run({"trend", "loaf_height", "--by", "proofing"});
    CHECK(wrong.exit_code == 2);
    CHECK(wrong.err.find("proof or proof-at-25C") != std::string::npos);
}

TEST_CASE("bags are told apart by --split, and the newest is watched by steady") {
    const Kitchen kitchen;
    fill(kitchen);
    kitchen.done({"bag", "add", "Emmer", "--mass", "5kg", "--lot", "L7"});
    kitchen.done({"bake", "add", "--formula", "Emmer 70", "--dough", "900g"});
    kitchen.done({"slice", "add", "5", "slice.jpg", "--thickness", "15mm"});
    const Json split = Json::parse(
        kitchen.done({"trend", "loaf_height", "--split", "bag", "--json", "--svg", "bags.svg"}));
    REQUIRE(split["groups"].size() == 2);
    CHECK(split["groups"][0]["bag"] == "bag not noted");
    CHECK(split["groups"][1]["bag"] == "bag 1 (lot L7)");
    CHECK(kitchen.read("bags.svg").find("bag 1 (lot L7)") != std::string::npos);
    CHECK(kitchen.run({"trend", "openness", "--by", "protein", "--split", "bag"}).exit_code == 2);
    const Json steady = Json::parse(kitchen.done({"steady", "--json"}));
    CHECK(steady["measure"] == "loaf_height");
    CHECK(steady["scatter"][0]["why_none"] == "no recipe was baked on two days");
    CHECK(kitchen.done({"steady", "openness"}).find("cannot be told") != std::string::npos);
}

TEST_CASE("next looks a control up, by flour or by bake, and says what does not go together") {
    const Kitchen kitchen;
    fill(kitchen);
    const auto said = [&](std::vector<std::string> arguments) {
        arguments.insert(arguments.begin(), {"next", "rye", "--want"});
        return kitchen.run(arguments);
    };
    CHECK(said({"as emmer"}).out.find("not determined") != std::string::npos);
    CHECK(said({"openness as 1"}).out.find("not determined") != std::string::npos);
    CHECK(said({"tallest", "--vary", "proof"}).out.find("--proof 75min") != std::string::npos);
    CHECK(said({"tallest", "--vary", "rest"}).out.find("how long it rested") != std::string::npos);
    CHECK(said({"as emmer", "--vary", "share"}).out.find("three different shares") !=
          std::string::npos);
    CHECK(said({"tallest", "--vary", "share"}).exit_code == 2);
    CHECK(said({"as rye", "--vary", "share"}).err.find("no bake of 'rye' alone has loaf height") !=
          std::string::npos);
    CHECK(said({"as emmer", "--vary", "proof"}).exit_code == 2);
    CHECK(said({"tallest", "--vary", "salt"}).err.find("write water, proof, rest or share") !=
          std::string::npos);
    const Finished unknown = said({"as nothing like it"});
    CHECK(unknown.exit_code == 1);
    CHECK(unknown.err.find("loafmark bake list shows all") != std::string::npos);
}

TEST_CASE("an empty journal answers every question in a sentence") {
    const Kitchen kitchen;
    kitchen.done({"flour", "add", "Emmer"});
    CHECK(kitchen.done({"trend", "openness"}) == "No trend of openness: there are no bakes yet.\n");
    for (const char* by : {"date", "share", "protein", "proof", "proof-at-25C"})
        CHECK(kitchen.done({"trend", "openness", "--by", by}).find("there are no bakes yet") !=
              std::string::npos);
    CHECK(kitchen.done({"steady"}) == "No bake has loaf height yet.\n");
    for (const char* vary : {"water", "proof", "rest"})
        CHECK(kitchen.done({"next", "Emmer", "--want", "tallest", "--vary", vary})
                  .find("not determined") != std::string::npos);
    CHECK(kitchen.run({"next", "Emmer", "--want", "as Emmer"}).exit_code == 1);
}

}  // namespace loafmark::end_to_end
