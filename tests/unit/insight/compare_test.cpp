#include "insight/compare.h"

#include <cmath>

#include "catch.h"
#include "insight/steadiness.h"
#include "made_up_bakes.h"

using namespace loafmark;
using namespace loafmark::insight;
using journal::BakeEntry;

namespace {

BakeEntry wheat(int id, int day, double openness) {
    return made_up::bake(id, {2026, 3, day}, "wheat", 1, 70, openness);
}
BakeEntry emmer(int id, int day, double openness) {
    return made_up::bake(id, {2026, 3, day}, "emmer", 2, 70, openness);
}

const MeasureComparison& openness_of(const Comparison& comparison) {
    for (const MeasureComparison& one : comparison.measures)
        if (one.measure == Measure::openness) return one;
    throw std::runtime_error("openness was not compared");
}

// Wheat on five days, one bake each: scatter 0.02 exactly (squares 0.0016 over 4 df).
std::vector<BakeEntry> wheat_week() {
    return {wheat(1, 1, 0.40), wheat(2, 2, 0.42), wheat(3, 3, 0.38), wheat(4, 4, 0.42),
            wheat(5, 5, 0.38)};
}

}  // namespace

TEST_CASE("single bakes are judged by the journal's own repeats") {
    std::vector<BakeEntry> journal = wheat_week();
    journal.push_back(emmer(6, 6, 0.30));
    const Comparison comparison = compare({journal[0], journal[5]}, journal);
    const MeasureComparison& openness = openness_of(comparison);
    CHECK(openness.basis == Basis::journal);
    CHECK(openness.degrees_of_freedom == 4);
    CHECK(*openness.sd == Approx(0.02));
    REQUIRE(openness.differences.size() == 1);
    const MeasuredDifference& d = openness.differences[0];
    CHECK(d.value == Approx(-0.10));
    // t(0.975, 4) = 2.776445105 (tables); times root 2 times 0.02.
    CHECK(d.interval->high - d.value == Approx(2.776445105 * std::sqrt(2.0) * 0.02).epsilon(1e-6));
    CHECK(d.verdict == Verdict::less);
    CHECK(d.percent == Approx(-25));
    CHECK(d.percent_interval->low < -25);
    CHECK(d.percent_interval->high > -25);
    CHECK(openness.sentence.find("4 df") != std::string::npos);
}

TEST_CASE("a difference within the repeats is not told apart") {
    std::vector<BakeEntry> journal = wheat_week();
    journal.push_back(emmer(6, 6, 0.37));
    const Comparison comparison = compare({journal[0], journal[5]}, journal);
    CHECK(openness_of(comparison).differences[0].verdict == Verdict::not_told_apart);
    CHECK(openness_of(comparison)
              .differences[0]
              .sentence.ends_with("not told apart from the control"));
}

TEST_CASE("below three degrees of freedom no one can tell, and what to bake is said") {
    const std::vector<BakeEntry> journal{wheat(1, 1, 0.40), wheat(2, 2, 0.42), emmer(3, 3, 0.1)};
    const Comparison comparison = compare({journal[0], journal[2]}, journal);
    const MeasureComparison& openness = openness_of(comparison);
    CHECK(openness.basis == Basis::none);
    CHECK_FALSE(openness.differences[0].interval);
    CHECK(openness.differences[0].verdict == Verdict::cannot_tell);
    CHECK(
        openness.sentence ==
        "no one can tell yet how far two bakes of one recipe differ in openness by chance: the "
        "journal's repeats give 1 df, and 3 are wanted; bake one recipe, best the control, 2 more "
        "times, on another day each");
}

TEST_CASE("repeats over days are compared within their days") {
    // Days differ by 0.1, within a day the flours by 0.05: the days take nothing from the answer.
    std::vector<BakeEntry> chosen;
    const std::vector<double> off{0.004, -0.004, 0.002, -0.002};
    for (int day = 0; day < 4; ++day) {
        const double level = 0.3 + 0.1 * (day % 3);
        chosen.push_back(wheat(2 * day + 1, day + 1, level));
        chosen.push_back(
            emmer(2 * day + 2, day + 1, level - 0.05 + off[static_cast<std::size_t>(day)]));
    }
    const Comparison comparison = compare(chosen, chosen);
    const MeasureComparison& openness = openness_of(comparison);
    CHECK(openness.basis == Basis::days);
    CHECK(openness.degrees_of_freedom == 3);
    const MeasuredDifference& d = openness.differences[0];
    CHECK(d.value == Approx(-0.05));
    // Paired differences scatter by root of (2 (16 + 4) e-6 / 3); t(0.975, 3) = 3.182446305.
    CHECK(d.interval->high - d.value ==
          Approx(3.182446305 * std::sqrt(40e-6 / 3) / 2).epsilon(1e-6));
    CHECK(d.verdict == Verdict::less);
    CHECK(comparison.confounded.empty());
}

TEST_CASE("what differs besides is named as confounded") {
    BakeEntry control = wheat(1, 1, 0.4);
    BakeEntry variant = made_up::bake(2, {2026, 3, 2}, "emmer", 2, 74, 0.3);
    control.loaves[0].loaf.dough_mass = Grams(900);
    variant.loaves[0].loaf.dough_mass = Grams(1000);
    const Comparison comparison = compare({control, variant}, {control, variant});
    REQUIRE(comparison.confounded.size() == 1);
    CHECK(comparison.confounded[0] ==
          "emmer, 74 % water and the control differ in flour (wheat, emmer), water (70.0 %, 74.0 "
          "%), dough mass (900 g, 1000 g) and the day (2026-03-01, 2026-03-02): what each of them "
          "did cannot be told apart");
}

TEST_CASE("doughs that differ by more than 2 % are told of, whatever else differs") {
    BakeEntry control = wheat(1, 1, 0.4);
    BakeEntry salted = wheat(2, 1, 0.4);
    salted.bake.formula_version = {7};
    const auto notes = [&](double dough) {
        control.loaves[0].loaf.dough_mass = Grams(900);
        salted.loaves[0].loaf.dough_mass = Grams(dough);
        return compare({control, salted}, {control, salted}).notes;
    };
    CHECK(notes(917).empty());
    REQUIRE(notes(945).size() == 1);
    CHECK(notes(945)[0] ==
          "Bake 2: 945 g of dough a loaf against 900 g, +5.0 %: part of a difference in height is "
          "dough; specific volume and openness do not mind it");
    CHECK(notes(850)[0].find("-5.6 %") != std::string::npos);
    salted.loaves[0].loaf.dough_mass.reset();
    CHECK(compare({control, salted}, {control, salted}).notes.empty());
}

TEST_CASE("how light stands beside how tall, and each density under its own name") {
    const std::vector<Measure> order = compared_measures();
    CHECK(order[0] == Measure::loaf_height);
    CHECK(order[1] == Measure::specific_volume);
    CHECK(info_of(Measure::slice_density).name != info_of(Measure::crumb_density).name);
}

TEST_CASE("of nothing there is no percentage, and equal readings are no scatter to judge by") {
    const std::vector<BakeEntry> none{wheat(1, 1, 0), emmer(2, 1, 0.1)};
    CHECK(openness_of(compare(none, none)).differences[0].sentence ==
          "emmer, 70 % water: +0.100: no one can tell yet");
    const std::vector<BakeEntry> alike{wheat(1, 1, 0.3), wheat(2, 2, 0.3), wheat(3, 3, 0.3),
                                       wheat(4, 4, 0.3), emmer(5, 4, 0.3)};
    CHECK(openness_of(compare(alike, alike)).differences[0].verdict == Verdict::cannot_tell);
}

TEST_CASE("mixed versions of the analysis and poor readings are said") {
    BakeEntry control = wheat(1, 1, 0.4);
    BakeEntry variant = emmer(2, 1, 0.3);
    variant.loaves[0].slices[0].reading->analysis_version = "later 2";
    variant.loaves[0].slices.push_back(made_up::slice(9, {}));
    variant.loaves[0].slices[1].reading->warnings = {"blurred"};
    const Comparison comparison = compare({control, variant}, {control, variant});
    REQUIRE(comparison.notes.size() == 2);
    CHECK(comparison.notes[0].find("slice remeasure") != std::string::npos);
    CHECK(comparison.notes[1].starts_with("1 reading is poor"));
}

TEST_CASE("a comparison wants two recipes, set aside bakes not counted") {
    CHECK_THROWS_AS(compare({wheat(1, 1, 0.4), wheat(2, 2, 0.4)}, {}), std::invalid_argument);
    BakeEntry aside = emmer(2, 1, 0.3);
    aside.bake.set_aside = "burnt";
    CHECK_THROWS_AS(compare({wheat(1, 1, 0.4), aside}, {}), std::invalid_argument);
    CHECK_THROWS_AS(compare({aside}, {}), std::invalid_argument);
}

TEST_CASE("scatter is parted into days, doughs, loaves and slices") {
    std::vector<BakeEntry> bakes;
    int id = 0;
    for (int day = 1; day <= 4; ++day)
        for (int dough = 0; dough < 2; ++dough) {
            ++id;
            bakes.push_back(wheat(id, day, 0.3 + 0.05 * day + 0.01 * dough));
            auto& slices = bakes.back().loaves[0].slices;
            slices.push_back(slices[0]);
            slices[1].reading->values[Measure::openness].value += 0.002;
        }
    const Steadiness steadiness = steadiness_of(bakes, Measure::openness);
    REQUIRE(steadiness.layers.size() == 4);
    CHECK(steadiness.layers[0].name == "between days");
    CHECK(steadiness.layers[0].degrees_of_freedom == 3);
    CHECK(steadiness.layers[1].degrees_of_freedom == 4);
    CHECK_FALSE(steadiness.layers[2].sd);  // one loaf a dough
    CHECK(*steadiness.layers[3].sd == Approx(0.002 / std::sqrt(2.0)));
    CHECK(steadiness.same_day->degrees_of_freedom == 4);
    CHECK(steadiness.same_day->sd == Approx(0.01 / std::sqrt(2.0)));
    CHECK(steadiness.any_day->degrees_of_freedom == 3);
}
