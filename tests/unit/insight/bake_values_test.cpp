#include "insight/bake_values.h"

#include "catch.h"
#include "made_up_bakes.h"

using namespace loafmark;
using namespace loafmark::insight;

TEST_CASE("a bake's value is the mean of its loaves, a loaf's the mean of its slices") {
    journal::BakeEntry bake = made_up::bake(1, {2026, 3, 1}, "rye", 1, 70, 0.2);
    bake.loaves[0].slices.push_back(made_up::slice(2, {{Measure::openness, made_up::about(0.3)}}));
    journal::LoafEntry second;
    second.slices = {made_up::slice(3, {{Measure::openness, made_up::about(0.7)}})};
    bake.loaves.push_back(second);
    const auto mean = bake_mean(bake, Measure::openness);
    REQUIRE(mean);
    CHECK(mean->value == Approx(0.475));
    CHECK(mean->slices == 3);
}

TEST_CASE("slices without the measure have no say in a bake's value") {
    journal::BakeEntry bake = made_up::bake(1, {2026, 3, 1}, "rye", 1, 70, 0.2);
    bake.loaves[0].slices.push_back(made_up::slice(2, {}));
    bake.loaves[0].slices.emplace_back();  // never measured
    CHECK(bake_mean(bake, Measure::openness)->value == Approx(0.2));
    CHECK_FALSE(bake_mean(bake, Measure::loaf_height));
}

TEST_CASE("the main flour has the largest share, of equals the first") {
    journal::BakeEntry bake = made_up::bake(1, {2026, 3, 1}, "rye", 1, 70, 0.2);
    bake.flours = {made_up::flour(1, "rye", 0.3), made_up::flour(2, "spelt", 0.35),
                   made_up::flour(3, "emmer", 0.35)};
    CHECK(main_flour(bake)->name == "spelt");
    bake.flours.clear();
    CHECK(main_flour(bake) == nullptr);
}

TEST_CASE("a slice from the loaf's end counts only when asked for") {
    journal::BakeEntry bake = made_up::bake(1, {2026, 3, 1}, "rye", 1, 70, 0.2);
    bake.loaves[0].slices.push_back(made_up::slice(2, {{Measure::openness, made_up::about(0.6)}}));
    bake.loaves[0].slices.back().slice.place = "end";
    CHECK(bake_mean(bake, Measure::openness)->value == Approx(0.2));
    CHECK(bake_mean(bake, Measure::openness, EndSlices::taken_in)->value == Approx(0.4));
    CHECK(end_slices(bake, Measure::openness) == 1);
    CHECK(end_slices(bake, Measure::loaf_height) == 0);
    bake.loaves[0].slices.front().slice.place = "end";
    CHECK_FALSE(bake_mean(bake, Measure::openness));
}

TEST_CASE("a poor reading has no say and is counted") {
    journal::BakeEntry bake = made_up::bake(1, {2026, 3, 1}, "rye", 1, 70, 0.2);
    bake.loaves[0].slices.push_back(made_up::slice(2, {{Measure::openness, made_up::about(0.6)}}));
    CHECK(poor_readings(bake) == 0);
    bake.loaves[0].slices[1].reading->warnings = {"several_slices", "blurred"};
    CHECK(bake_mean(bake, Measure::openness)->value == Approx(0.2));
    CHECK(poor_readings(bake) == 1);
}
