#include "documents/steady_document.h"

#include <nlohmann/json.hpp>

#include "catch.h"
#include "made_up_bakes.h"

using namespace loafmark;
using namespace loafmark::documents;
using nlohmann::json;

namespace {

SteadyFindings findings(const std::vector<journal::BakeEntry>& bakes) {
    return {insight::steadiness_of(bakes, Measure::openness),
            insight::find_drift(bakes, Measure::openness),
            insight::judge_new_bag(bakes, Measure::openness),
            {}};
}

std::vector<journal::BakeEntry> week(const std::vector<double>& openness) {
    std::vector<journal::BakeEntry> bakes;
    for (const double value : openness) {
        const int id = static_cast<int>(bakes.size()) + 1;
        bakes.push_back(made_up::bake(id, {2026, 3, id}, "wheat", 1, 70, value));
        made_up::draw(bakes.back(), 1, id == 7 ? 2 : 1);
    }
    return bakes;
}

}  // namespace

TEST_CASE("at a terminal scatter is a table, then drift and the new bag in sentences") {
    // Moving ranges of 0.02 throughout: sigma 0.02 / 1.128379 = 0.017725.
    CHECK(
        steady_text(findings(week({0.40, 0.42, 0.40, 0.42, 0.40, 0.42, 0.40}))) ==
        "scatter of openness            sd     95 % interval  df\n"
        "between days               0.0107  0.0069 to 0.0235   6  what doughs, loaves and slices "
        "add is in it\n"
        "between doughs of a day         -                 -   0  cannot be told: no recipe has "
        "two doughs of one day\n"
        "between loaves of a dough       -                 -   0  cannot be told: no dough has "
        "two loaves measured\n"
        "between slices of a loaf        -                 -   0  cannot be told: no loaf has "
        "two slices measured\n"
        "\n"
        "Two single bakes of one recipe differ in openness by up to 0.037 by chance (95 %; repeats "
        "scatter by 0.011, 6 df).\n"
        "\n"
        "Wheat, 70 % water, 7 bakes: openness 0.409 on average, limits 0.355 to 0.462; no drift "
        "shows.\n"
        "\n"
        "Bag 2, wheat, 70 % water: openness 0.400, 0.380 to 0.440 was to be expected from 6 days "
        "with the bags before (95 %): as before.\n");
}

TEST_CASE("a document holds all of it, null where nothing can be told") {
    const json document =
        json::parse(steady_document(findings(week({0.40, 0.42, 0.40, 0.42, 0.40, 0.42, 0.40}))));
    CHECK(document["schema"] == 1);
    CHECK(document["measure"] == "openness");
    REQUIRE(document["scatter"].size() == 4);
    CHECK(document["scatter"][0]["degrees_of_freedom"] == 6);
    CHECK(document["scatter"][0]["with"].size() == 3);
    CHECK(document["scatter"][1]["sd"].is_null());
    CHECK(document["scatter"][1]["why_none"] == "no recipe has two doughs of one day");
    CHECK(document["doughs_of_one_day"].is_null());
    CHECK(document["doughs_of_different_days"]["degrees_of_freedom"] == 6);
    CHECK(document["drift"]["limits"]["drifting"] == false);
    CHECK(document["drift"]["days"].size() == 7);
    CHECK(document["new_bag"]["verdict"] == "as before");
}

TEST_CASE("without bakes, or with one, there is nothing to be steady") {
    CHECK(steady_text(findings({})) == "No bake has openness yet.\n");
    const json none = json::parse(steady_document(findings({})));
    CHECK(none["scatter"].empty());
    CHECK(none["drift"].is_null());
    CHECK(none["new_bag"].is_null());
    CHECK(steady_text(findings(week({0.4}))).find("no recipe was baked on two days") !=
          std::string::npos);
}
