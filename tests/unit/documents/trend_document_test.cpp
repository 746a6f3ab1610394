#include "documents/trend_document.h"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "catch.h"
#include "made_up_bakes.h"

using namespace loafmark;
using namespace loafmark::documents;
using nlohmann::json;

namespace {

std::vector<journal::BakeEntry> bakes() {
    return {made_up::bake(1, {2026, 3, 1}, "rye", 1, 60, 0.12),
            made_up::bake(2, {2026, 3, 2}, "rye", 1, 70, 0.16),
            made_up::bake(3, {2026, 3, 3}, "rye", 1, 80, 0.32),
            made_up::bake(4, {2026, 3, 4}, "dinkel, hell", 2, 60, 0.22),
            made_up::bake(5, {2026, 3, 5}, "dinkel, hell", 2, 80, 0.44)};
}

}  // namespace

TEST_CASE("a trend's document holds points and fit by flour") {
    const json trend = json::parse(trend_document(insight::find_trend(bakes(), {})));
    CHECK(trend["schema"] == 1);
    CHECK(trend["measure"] == "openness");
    CHECK(trend["by"] == "hydration");
    CHECK(trend["why_none"].is_null());
    REQUIRE(trend["groups"].size() == 2);
    const json& rye = trend["groups"][0];
    CHECK(rye["flour"] == "rye");
    CHECK(rye["n_bakes"] == 3);
    CHECK(rye["points"][1]["bake"] == 2);
    CHECK(rye["points"][1]["x"] == 70);
    CHECK(rye["points"][1]["y"] == 0.16);
    CHECK(rye["why_none"].is_null());
    CHECK(rye["fit"]["model"] == "common slope");
    // Within flours: sums of products 2 + 2.2, of squares 200 + 200.
    CHECK(rye["fit"]["slope"]["value"].get<double>() == Approx(4.2 / 400));
    CHECK(rye["fit"]["slope"]["low"].is_number());
    CHECK(rye["fit"]["degrees_of_freedom"] == 2);
    CHECK(rye["fit"]["why_no_interval"].is_null());
    CHECK(trend["groups"][1]["fit"]["slope"] == rye["fit"]["slope"]);
    CHECK(trend["common_fit"]["slope"] == rye["fit"]["slope"]);
}

TEST_CASE("a slope without an interval has null ends and says why") {
    auto few = bakes();
    few.pop_back();
    const json fit = json::parse(trend_document(insight::find_trend(few, {})))["groups"][0]["fit"];
    CHECK(fit["slope"]["low"].is_null());
    CHECK(fit["slope"]["high"].is_null());
    CHECK(fit["why_no_interval"].is_string());
}

TEST_CASE("a trend that cannot be had has null fits and says why") {
    const json trend = json::parse(trend_document(insight::find_trend({bakes()[0]}, {})));
    CHECK(trend["groups"][0]["fit"].is_null());
    CHECK(trend["groups"][0]["why_none"] ==
          "there is one bake only; a trend wants at least two that differ in water");
    CHECK(trend["common_fit"].is_null());
    CHECK(json::parse(trend_document(insight::find_trend({}, {})))["groups"] == json::array());
}

TEST_CASE("a trend's CSV has one row a bake") {
    const std::string csv = trend_csv(insight::find_trend(bakes(), {}));
    CHECK(
        csv.starts_with("flour,bake,date,title,hydration_percent,openness,slices\r\n"
                        "rye,1,2026-03-01,Bake 1,60,0.12,1\r\n"));
    CHECK(csv.ends_with("\"dinkel, hell\",5,2026-03-05,Bake 5,80,0.44,1\r\n"));
    CHECK(std::ranges::count(csv, '\n') == 6);
}

TEST_CASE("at a terminal a trend is a table and its sentence") {
    auto three = bakes();
    three.resize(3);
    three.push_back(made_up::bake(9, {2026, 3, 9}, "rye", 1, 60, 0.5));
    three.back().bake.set_aside = "burnt";
    CHECK(
        trend_table(insight::find_trend(three, {})) ==
        "flour  date        bake    water, %  openness  slices\n"
        "rye    2026-03-01  Bake 1      60.0     0.120       1\n"
        "rye    2026-03-02  Bake 2      70.0     0.160       1\n"
        "rye    2026-03-03  Bake 3      80.0     0.320       1\n"
        "\n"
        "Openness changes by 0.0100 a point of water, from 3 bakes of one flour; no interval: "
        "3 bakes less 2 fitted numbers (1 intercept and a slope) leave 1 degree of freedom, and at "
        "least 2 are wanted.\n"
        "Left out: 1 bake set aside.\n");
    CHECK(trend_table(insight::find_trend({}, {})) ==
          "No trend of openness: there are no bakes yet.\n");
}

TEST_CASE("split by bag, table, CSV and document name the bag") {
    auto drawn = bakes();
    made_up::draw(drawn[0], 1, 3);
    const auto trend = insight::find_trend(drawn, {.split = insight::Split::bag});
    const json document = json::parse(trend_document(trend));
    CHECK(document["groups"][2]["flour"] == "rye");
    CHECK(document["groups"][2]["bag"] == "bag 3");
    CHECK(document["groups"][2]["bags"] == json::array({3}));
    CHECK_FALSE(
        json::parse(trend_document(insight::find_trend(drawn, {})))["groups"][0].contains("bag"));
    CHECK(trend_csv(trend).find("rye,1,2026-03-01,Bake 1,60,0.12,1,bag 3\r\n") !=
          std::string::npos);
    CHECK(trend_table(trend).starts_with(
        "flour         bag            date        bake    water, %  openness  slices\n"));
}

TEST_CASE("over proof as at 25 degrees the rule and where it comes from are told") {
    auto proved = bakes();
    for (auto& bake : proved) {
        bake.loaves[0].loaf.facts.proof = Minutes(60 + bake.bake.date.day);
        bake.loaves[0].loaf.facts.proof_temperature = Celsius(25);
    }
    proved[4].loaves[0].loaf.facts.proof_temperature = Celsius(4);
    const auto trend = insight::find_trend(proved, {.against = insight::Against::proof_at_25c});
    const json document = json::parse(trend_document(trend));
    CHECK(document["by"] == "proof-at-25C");
    CHECK(document["x_unit"] == "min");
    const json& common = document["common_temperature"];
    CHECK(common["celsius"] == 25);
    CHECK(common["n_loaves_outside"] == 1);
    REQUIRE(common["rules"].size() == 1);
    CHECK(common["rules"][0]["leaven"].is_null());
    CHECK(common["rules"][0]["doubling_kelvins"] == 9);
    CHECK(common["rules"][0]["source"] == "common practice, no source");
    CHECK(document["groups"][0]["points"][0]["loaves"] == json::array({1}));
    CHECK(document["groups"][0]["points"][0]["x"] == 61);
    const std::string text = trend_table(trend);
    CHECK(text.find("As at 25 \u00b0C: dough whose leaven is not noted is taken to prove twice as "
                    "fast for every 9 \u00b0C more (8 to 10, common practice, no source).\n"
                    "Left out: 1 loaf proved colder than 15 or warmer than 32 \u00b0C.\n") !=
          std::string::npos);
    CHECK(trend_csv(trend).starts_with(
        "flour,bake,date,title,proof_at_25_celsius_minutes,openness,slices,loaves\r\n"));
}
