#include "insight/steadiness.h"

#include <cmath>

#include "catch.h"
#include "insight/new_bag.h"
#include "made_up_bakes.h"

using namespace loafmark;
using namespace loafmark::insight;
using journal::BakeEntry;

namespace {

BakeEntry control(int id, int day, double openness, std::optional<int> bag = {}) {
    BakeEntry bake = made_up::bake(id, {2026, 3, day}, "wheat", 1, 70, openness);
    if (bag) made_up::draw(bake, 1, *bag);
    return bake;
}

std::vector<BakeEntry> old_bag(const std::vector<double>& openness) {
    std::vector<BakeEntry> bakes;
    for (const double value : openness) {
        const int id = static_cast<int>(bakes.size()) + 1;
        bakes.push_back(control(id, id, value, 1));
    }
    return bakes;
}

}  // namespace

TEST_CASE("a kind of scatter that was never repeated cannot be told, and the reason is given") {
    const std::vector<BakeEntry> bakes{control(1, 1, 0.30), control(2, 2, 0.32),
                                       control(3, 3, 0.29)};
    const Steadiness steadiness = steadiness_of(bakes, Measure::openness);
    REQUIRE(steadiness.layers.size() == 4);
    CHECK(steadiness.layers[0].degrees_of_freedom == 2);
    CHECK(steadiness.layers[0].held_within ==
          std::vector<std::string>{"doughs", "loaves", "slices"});
    CHECK(steadiness.layers[0].why_none.empty());
    CHECK(steadiness.layers[1].why_none == "no recipe has two doughs of one day");
    CHECK(steadiness.layers[2].why_none == "no dough has two loaves measured");
    CHECK(steadiness.layers[3].why_none == "no loaf has two slices measured");
    CHECK(steadiness_of({}, Measure::openness).layers.empty());
}

TEST_CASE("loaves of a dough that were proved for different times are no repeats") {
    std::vector<BakeEntry> bakes{control(1, 1, 0.30)};
    bakes[0].loaves.push_back(bakes[0].loaves[0]);
    bakes[0].loaves[1].loaf.id = {99};
    CHECK(steadiness_of(bakes, Measure::openness).layers[2].degrees_of_freedom == 1);
    bakes[0].loaves[1].loaf.facts.proof = Minutes(90);
    CHECK(steadiness_of(bakes, Measure::openness).layers[2].degrees_of_freedom == 0);
}

TEST_CASE("a new bag's bake is held against where the bags before let it be expected") {
    std::vector<BakeEntry> bakes = old_bag({0.30, 0.31, 0.29, 0.31, 0.29});
    CHECK_FALSE(judge_new_bag(bakes, Measure::openness));  // one bag only
    bakes.push_back(control(10, 10, 0.305, 2));
    auto bag = judge_new_bag(bakes, Measure::openness);
    REQUIRE(bag);
    CHECK(bag->bag == journal::BagId{2});
    CHECK(bag->days_before == 5);
    // Mean 0.30, s 0.01, t(0.975, 4) = 2.776445: 0.30 -+ 2.776445 x 0.01 x sqrt(1.2).
    CHECK(bag->expected->low == Approx(0.30 - 2.776445 * 0.01 * std::sqrt(1.2)).margin(1e-7));
    CHECK(bag->verdict == BagVerdict::cannot_tell);  // 10 % wide and more
    bakes.back() = control(10, 10, 0.34, 2);
    bag = judge_new_bag(bakes, Measure::openness);
    CHECK(bag->verdict == BagVerdict::different);
    CHECK(bag->sentence ==
          "bag 2, wheat, 70 % water: openness 0.340, 0.270 to 0.330 was to be expected from 5 days "
          "with the bags before (95 %): different; bake this loaf once more from it before the "
          "recipe is changed, since the day may have done it");
}

TEST_CASE("a bag is as before only where a change worth notice would have shown") {
    std::vector<BakeEntry> bakes = old_bag({0.300, 0.302, 0.298, 0.301, 0.299});
    bakes.push_back(control(10, 10, 0.302, 2));
    CHECK(judge_new_bag(bakes, Measure::openness)->verdict == BagVerdict::as_before);
}

TEST_CASE("too few days with the bags before judge nothing, and unknown bags say nothing") {
    std::vector<BakeEntry> bakes = old_bag({0.30, 0.31, 0.29});
    bakes.push_back(control(8, 8, 0.30));
    bakes.push_back(control(10, 10, 0.305, 2));
    const auto bag = judge_new_bag(bakes, Measure::openness);
    CHECK(bag->verdict == BagVerdict::cannot_tell);
    CHECK(bag->sentence.find("wants 4 days of this loaf from them (there are 3)") !=
          std::string::npos);
    bakes.push_back(control(11, 11, 0.30));
    CHECK_FALSE(judge_new_bag(bakes, Measure::openness));
    CHECK_FALSE(judge_new_bag({}, Measure::openness));
}
