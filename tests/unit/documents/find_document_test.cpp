#include "documents/find_document.h"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "catch.h"
#include "made_up_bakes.h"

using namespace loafmark;
using namespace loafmark::documents;
using nlohmann::json;

namespace {

journal::BakeEntry rye_and_wheat() {
    journal::BakeEntry bake = made_up::bake(7, {2026, 3, 1}, "rye", 1, 70, 0.25);
    bake.flours = {made_up::flour(1, "rye", 0.6), made_up::flour(2, "wheat", 0.4)};
    bake.flours[0].grain = "rye";
    return bake;
}

std::vector<std::string> lines_of(const std::string& csv) {
    std::vector<std::string> lines;
    for (std::size_t at = 0; at < csv.size();) {
        const std::size_t end = csv.find("\r\n", at);
        lines.push_back(csv.substr(at, end - at));
        at = end + 2;
    }
    return lines;
}

}  // namespace

TEST_CASE("found bakes hold flours with shares, water and readings") {
    const json document = json::parse(find_document({rye_and_wheat()}));
    CHECK(document["schema"] == 1);
    const json& bake = document["bakes"][0];
    CHECK(bake["id"] == 7);
    CHECK(bake["date"] == "2026-03-01");
    CHECK(bake["formula"] == "Everyday loaf");
    CHECK(bake["flours"] == json::parse(R"([{"name": "rye", "grain": "rye", "share": 0.6},
                                            {"name": "wheat", "grain": null, "share": 0.4}])"));
    CHECK(bake["hydration_percent"] == 70);
    CHECK(bake["set_aside"].is_null());
    CHECK(bake["slices"][0]["id"] == 7);
    CHECK(bake["slices"][0]["photo"] == "slice-7.jpg");
    CHECK(bake["slices"][0]["reading"]["openness"]["value"] == 0.25);
    CHECK(bake["slices"][0]["reading"]["loaf_height"].is_null());
}

TEST_CASE("what was weighed of a loaf is told with its number, slices or none") {
    journal::BakeEntry bake = rye_and_wheat();
    bake.loaves.push_back(bake.loaves[0]);
    bake.loaves[0].slices.clear();
    bake.loaves[0].weighed = {{Measure::specific_volume, made_up::about(3.25)}};
    bake.loaves[1].loaf.number = 2;
    const json found = json::parse(find_document({bake}))["bakes"][0];
    REQUIRE(found["loaves"].size() == 2);
    CHECK(found["loaves"][0]["number"] == 1);
    CHECK(found["loaves"][0]["weighed"].size() == 1);
    CHECK(found["loaves"][0]["weighed"]["specific_volume"]["value"] == 3.25);
    CHECK(found["loaves"][1]["number"] == 2);
    CHECK(found["loaves"][1]["weighed"] == json::object());
}

TEST_CASE("what is not known of a bake is null") {
    journal::BakeEntry bake = rye_and_wheat();
    bake.hydration.reset();
    bake.loaves[0].slices[0].reading.reset();
    bake.bake.set_aside = "no salt";
    const json found = json::parse(find_document({bake}))["bakes"][0];
    CHECK(found["hydration_percent"].is_null());
    CHECK(found["slices"][0]["reading"].is_null());
    CHECK(found["set_aside"] == "no salt");
    CHECK(json::parse(find_document({}))["bakes"] == json::array());
}

TEST_CASE("the CSV has one row a slice and one for a bake without slices") {
    journal::BakeEntry two = rye_and_wheat();
    two.loaves[0].slices.push_back(made_up::slice(8, {{Measure::openness, made_up::about(0.5)}}));
    journal::BakeEntry none = rye_and_wheat();
    none.loaves.clear();
    const auto lines = lines_of(find_csv({two, none}));
    REQUIRE(lines.size() == 4);
    CHECK(lines[0].starts_with(
        "bake,date,title,formula,flours,hydration_percent,set_aside,slice,photo,resolved_limit,"
        "resolved_limit.low,resolved_limit.high,loaf_height,"));
    CHECK(lines[1].starts_with(
        "7,2026-03-01,Bake 7,Everyday loaf,rye 60 %; wheat 40 %,70,,7,slice-7.jpg,"));
    CHECK(lines[2].find(",8,slice-8.jpg,") != std::string::npos);
    CHECK(lines[2].find(",0.5,0.475,0.525,") != std::string::npos);
    CHECK(lines[3].starts_with("7,2026-03-01,Bake 7,Everyday loaf,rye 60 %; wheat 40 %,70,,,,,"));
    for (const std::string& line : lines)
        CHECK(std::ranges::count(line, ',') == std::ranges::count(lines[0], ','));
}

TEST_CASE("titles and names in the CSV are quoted and never formulas") {
    journal::BakeEntry bake = rye_and_wheat();
    bake.bake.title = "=cmd|' /C calc'!A0";
    bake.formula_name = "Rye, dark";
    const auto lines = lines_of(find_csv({bake}));
    CHECK(lines[1].starts_with("7,2026-03-01,'=cmd|' /C calc'!A0,\"Rye, dark\","));
}
