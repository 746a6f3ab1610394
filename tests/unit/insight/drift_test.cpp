#include "insight/drift.h"

#include "catch.h"
#include "made_up_bakes.h"

using namespace loafmark;
using namespace loafmark::insight;

namespace {

std::vector<journal::BakeEntry> control_of(const std::vector<double>& openness) {
    std::vector<journal::BakeEntry> bakes;
    for (const double value : openness) {
        const int id = static_cast<int>(bakes.size()) + 1;
        bakes.push_back(made_up::bake(id, {2026, 3, id}, "wheat", 1, 70, value));
    }
    return bakes;
}

}  // namespace

TEST_CASE("the recipe baked most often is looked at in order of date") {
    std::vector<journal::BakeEntry> bakes = control_of({0.40, 0.42, 0.40, 0.42, 0.40, 0.42, 0.40});
    bakes.push_back(made_up::bake(20, {2026, 4, 1}, "emmer", 2, 70, 0.1));
    std::swap(bakes[0], bakes[3]);
    const auto drift = find_drift(bakes, Measure::openness);
    REQUIRE(drift);
    CHECK(drift->recipe == "wheat, 70 % water");
    CHECK(drift->points.size() == 7);
    CHECK(drift->points[0].date == Date{2026, 3, 1});
    CHECK(drift->sentence.ends_with("no drift shows"));
}

TEST_CASE("eight bakes on one side of the middle are a drift") {
    const auto drift = find_drift(control_of({0.30, 0.31, 0.30, 0.31, 0.30, 0.31, 0.30, 0.31, 0.40,
                                              0.41, 0.40, 0.41, 0.40, 0.41, 0.40, 0.41}),
                                  Measure::openness);
    CHECK(drift->chart->drifting());
    CHECK(drift->sentence.find("the last 8 all lie above the middle") != std::string::npos);
}

TEST_CASE("few bakes have no limits, and a bake set aside is none") {
    std::vector<journal::BakeEntry> bakes = control_of({0.40, 0.42, 0.41});
    CHECK(find_drift(bakes, Measure::openness)->sentence ==
          "wheat, 70 % water, 3 bakes: limits want at least 6");
    bakes[0].bake.set_aside = bakes[1].bake.set_aside = "forgot the salt";
    CHECK_FALSE(find_drift(bakes, Measure::openness));
    CHECK_FALSE(find_drift({}, Measure::openness));
}
