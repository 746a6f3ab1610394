#include "documents/compare_document.h"

#include <nlohmann/json.hpp>

#include "catch.h"
#include "made_up_bakes.h"

using namespace loafmark;
using namespace loafmark::documents;
using nlohmann::json;

namespace {

std::vector<journal::BakeEntry> journal_with(std::vector<double> wheat, double emmer) {
    std::vector<journal::BakeEntry> bakes;
    int id = 0;
    for (const double openness : wheat) {
        ++id;
        bakes.push_back(made_up::bake(id, {2026, 3, id}, "wheat", 1, 70, openness));
    }
    bakes.push_back(made_up::bake(++id, {2026, 3, id}, "emmer", 2, 70, emmer));
    return bakes;
}

}  // namespace

TEST_CASE("a comparison's document names contenders, differences and what they rest on") {
    const auto bakes = journal_with({0.40, 0.42, 0.38, 0.42, 0.38}, 0.30);
    const json document =
        json::parse(compare_document(insight::compare({bakes[0], bakes[5]}, bakes)));
    CHECK(document["schema"] == 1);
    CHECK(document["contenders"][1]["name"] == "emmer, 70 % water");
    CHECK(document["contenders"][1]["bakes"] == json::array({6}));
    const json& openness = document["measures"][0];
    CHECK(openness["measure"] == "openness");
    CHECK(openness["basis"] == "journal");
    CHECK(openness["degrees_of_freedom"] == 4);
    const json& difference = openness["differences"][0];
    CHECK(difference["contender"] == 1);
    CHECK(difference["difference"]["value"].get<double>() == Approx(-0.1));
    CHECK(difference["difference"]["low"].is_number());
    CHECK(difference["verdict"] == "less");
    CHECK(document["notes"].empty());
}

TEST_CASE("where no one can tell, intervals are null and the text says it once") {
    const auto bakes = journal_with({0.40}, 0.30);
    const auto comparison = insight::compare({bakes[0], bakes[1]}, bakes);
    const json document = json::parse(compare_document(comparison));
    CHECK(document["measures"][0]["differences"][0]["difference"]["low"].is_null());
    CHECK(document["measures"][0]["differences"][0]["p"].is_null());
    const std::string text = compare_table(comparison);
    CHECK(text.starts_with("control: wheat, 70 % water (2026-03-01 Bake 1)\n"));
    CHECK(text.find("emmer, 70 % water: -0.100 (-25.0 %): no one can tell yet\n") !=
          std::string::npos);
    CHECK(text.find("bake one recipe, best the control, 4 times, each on its own day") !=
          std::string::npos);
}
