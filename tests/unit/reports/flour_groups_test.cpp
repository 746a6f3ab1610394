#include "reports/flour_groups.h"

#include "catch.h"
#include "made_up_bakes.h"

using namespace loafmark;
using namespace loafmark::reports;

TEST_CASE("flours with most bakes come first, then by name, and what is set aside counts nowhere") {
    std::vector<journal::BakeEntry> bakes{made_up::bake(1, {2026, 3, 1}, "Spelt", 1, 70, 0.3),
                                          made_up::bake(2, {2026, 3, 2}, "Rye", 2, 70, 0.3),
                                          made_up::bake(3, {2026, 3, 3}, "Wheat", 3, 70, 0.3),
                                          made_up::bake(4, {2026, 3, 4}, "Wheat", 3, 70, 0.3),
                                          made_up::bake(5, {2026, 3, 5}, "Oats", 4, 70, 0.3)};
    bakes[4].bake.set_aside = "fell";
    const auto groups = flour_groups(bakes);
    REQUIRE(groups.size() == 3);
    CHECK(groups[0].name == "Wheat");
    CHECK(groups[0].bakes.size() == 2);
    CHECK(groups[1].name == "Rye");
    CHECK(groups[2].name == "Spelt");
}

TEST_CASE("beyond ten flours the rest is one") {
    std::vector<journal::BakeEntry> bakes;
    for (int i = 0; i < 14; ++i)
        bakes.push_back(
            made_up::bake(i + 1, {2026, 3, i + 1}, "Flour " + std::to_string(i), i + 1, 70, 0.3));
    const auto groups = flour_groups(bakes);
    REQUIRE(groups.size() == most_flours);
    CHECK(groups.back().name == "5 other flours");
    CHECK(groups.back().bakes.size() == 5);
}
