#include "insight/proof.h"

#include <cmath>

#include "catch.h"
#include "insight/trend.h"
#include "made_up_bakes.h"

using namespace loafmark;
using namespace loafmark::insight;
using journal::BakeEntry;

namespace {

journal::BakeStep step(const std::string& name, std::optional<Minutes> lasted,
                       std::optional<Celsius> at = {}, std::optional<std::string> began = {}) {
    journal::BakeStep step;
    step.step = name;
    step.lasted = lasted;
    step.temperature = at;
    step.began = std::move(began);
    return step;
}

// A dough of one loaf a time of proof, with these openness values.
BakeEntry dough(int id, const std::vector<std::pair<double, double>>& minutes_and_openness) {
    BakeEntry bake = made_up::bake(id, {2026, 3, id}, "wheat", 1, 70, 0.3);
    const journal::LoafEntry loaf = bake.loaves[0];
    bake.loaves.clear();
    int number = 0;
    for (const auto& [minutes, openness] : minutes_and_openness) {
        journal::LoafEntry one = loaf;
        one.loaf.number = ++number;
        one.loaf.facts.proof = Minutes(minutes);
        one.slices[0].reading->values[Measure::openness].value = openness;
        bake.loaves.push_back(one);
    }
    return bake;
}

// Proved to the same dent at that temperature.
BakeEntry proved(int id, double degrees, double minutes, const std::string& dent = "slowly",
                 const std::string& leaven = "starter") {
    BakeEntry bake = dough(id, {{minutes, 0.3}});
    bake.bake.facts.leaven = leaven;
    bake.loaves[0].loaf.facts.dent = dent;
    bake.loaves[0].loaf.facts.proof_temperature = Celsius(degrees);
    return bake;
}

const TrendQuestion by_proof{.against = Against::proof};

}  // namespace

TEST_CASE("a loaf's own proof goes before its dough's, and the room stands in for a temperature") {
    BakeEntry bake = made_up::bake(1, {2026, 3, 1}, "wheat", 1, 70, 0.3);
    journal::Loaf& loaf = bake.loaves[0].loaf;
    CHECK_FALSE(proof_of(bake, loaf));
    bake.bake.steps = {step("final proof", Minutes(40)), step("final proof", Minutes(20))};
    CHECK(proof_of(bake, loaf) == Proof{Minutes(60), std::nullopt});
    bake.bake.room_temperature = Celsius(21);
    CHECK(proof_of(bake, loaf) == Proof{Minutes(60), Celsius(21)});
    bake.bake.steps[1].temperature = Celsius(26);
    CHECK(proof_of(bake, loaf) == Proof{Minutes(60), Celsius(26)});
    loaf.facts.proof = Minutes(90);
    CHECK(proof_of(bake, loaf) == Proof{Minutes(90), Celsius(26)});
    loaf.facts.proof_temperature = Celsius(5);
    CHECK(proof_of(bake, loaf) == Proof{Minutes(90), Celsius(5)});
}

TEST_CASE("a proof that was only stamped lasted until the next step began, over midnight too") {
    BakeEntry bake = made_up::bake(1, {2026, 3, 1}, "wheat", 1, 70, 0.3);
    const journal::Loaf& loaf = bake.loaves[0].loaf;
    bake.bake.steps = {step("final proof", {}, {}, "2026-02-28 23:30")};
    CHECK_FALSE(proof_of(bake, loaf));
    bake.bake.steps.push_back(step("score", {}));
    bake.bake.steps.push_back(step("bake", Minutes(45), {}, "2026-03-01 00:45"));
    CHECK(proof_of(bake, loaf)->lasted == Minutes(75));
    bake.bake.steps[2].began = "2026-02-28 23:00";
    CHECK_FALSE(proof_of(bake, loaf));
    bake.bake.steps[2].began = "early";
    CHECK_FALSE(proof_of(bake, loaf));
}

TEST_CASE("a temperature is known of a step whose time is not") {
    BakeEntry bake = made_up::bake(1, {2026, 3, 1}, "wheat", 1, 70, 0.3);
    journal::Loaf& loaf = bake.loaves[0].loaf;
    bake.bake.room_temperature = Celsius(18);
    bake.bake.steps = {step("final proof", {}, Celsius(28))};
    CHECK_FALSE(proof_of(bake, loaf));
    loaf.facts.proof = Minutes(90);
    CHECK(proof_of(bake, loaf) == Proof{Minutes(90), Celsius(28)});
}

TEST_CASE("steps of different temperatures are brought to the common one each by itself") {
    BakeEntry bake = made_up::bake(1, {2026, 3, 1}, "wheat", 1, 70, 0.3);
    journal::Loaf& loaf = bake.loaves[0].loaf;
    bake.bake.steps = {step("final proof", Minutes(60), Celsius(16)),
                       step("final proof", Minutes(40), Celsius(25))};
    const Proof proof = proof_of(bake, loaf).value();
    CHECK(proof.lasted == Minutes(100));
    CHECK_FALSE(proof.temperature);
    CHECK(proof.temperature_known());
    // Nine degrees colder by a doubling in nine: half of 60, and 40 as they are.
    CHECK(at_common_temperature(proof, 9)->count() == Approx(70));

    // One that notes none stood in the room.
    bake.bake.steps.push_back(step("final proof", Minutes(10)));
    CHECK_FALSE(proof_of(bake, loaf)->temperature_known());
    bake.bake.room_temperature = Celsius(25);
    CHECK(at_common_temperature(*proof_of(bake, loaf), 9)->count() == Approx(80));

    // A loaf's own temperature holds for all of it; of its own time nobody knows where it stood.
    loaf.facts.proof_temperature = Celsius(25);
    CHECK(at_common_temperature(*proof_of(bake, loaf), 9)->count() == Approx(110));
    loaf.facts.proof_temperature.reset();
    loaf.facts.proof = Minutes(90);
    CHECK_FALSE(proof_of(bake, loaf)->temperature_known());
}

TEST_CASE("a night in the cold before a warm hour is outside what is weighed") {
    BakeEntry bake = made_up::bake(1, {2026, 3, 1}, "wheat", 1, 70, 0.3);
    bake.bake.steps = {step("final proof", Minutes(720), Celsius(4)),
                       step("final proof", Minutes(60), Celsius(26))};
    const Trend trend = find_trend({bake}, {.against = Against::proof_at_25c});
    CHECK(trend.groups.empty());
    CHECK(trend.outside_temperature == 1);
}

TEST_CASE("minutes double by their rule, from 15 to 32 degrees only") {
    const auto minutes = [](double degrees) {
        return at_common_temperature(Minutes(60), Celsius(degrees), 9);
    };
    CHECK(minutes(25)->count() == Approx(60));
    CHECK(minutes(16)->count() == Approx(30));
    CHECK(minutes(29.5)->count() == Approx(60 * std::sqrt(2.0)));
    CHECK(minutes(15));
    CHECK(minutes(32));
    CHECK_FALSE(minutes(14.9));
    CHECK_FALSE(minutes(32.1));
}

TEST_CASE("the rule is learnt for a leaven whose loaves were proved to the same dent") {
    // log2(minutes) = 10 - T / 8 with a disturbance that sums to nought and is orthogonal to T.
    std::vector<BakeEntry> bakes;
    const std::vector<double> off{0.05, -0.05, -0.05, 0.05};
    for (int i = 0; i < 4; ++i) {
        const double degrees = 18 + 4 * i;
        bakes.push_back(
            proved(i + 1, degrees, std::exp2(10 - degrees / 8 + off[static_cast<std::size_t>(i)])));
        bakes.push_back(proved(i + 11, degrees,
                               std::exp2(10.5 - degrees / 8 - off[static_cast<std::size_t>(i)]),
                               "stays"));
    }
    const ProofDoubling learnt = proof_doublings(bakes).at("starter");
    CHECK(learnt.degrees == Approx(8));
    CHECK(learnt.proofs == 8);
    CHECK(learnt.degrees_of_freedom == 5);
    // Slope -1/8; sum of squares of T 2 x 80; s^2 = 8 x 0.0025 / 5; t(0.975, 5) = 2.570582.
    const double half = 2.570582 * std::sqrt(8 * 0.0025 / 5 / 160);
    CHECK(learnt.interval->low == Approx(1 / (0.125 + half)).margin(1e-5));
    CHECK(learnt.interval->high == Approx(1 / (0.125 - half)).margin(1e-5));
    CHECK(learnt.sentence.starts_with("starter dough proves twice as fast for every 8.0 \u00b0C"));
    CHECK(doubling_for(proof_doublings(bakes), "fresh yeast").degrees == 9);
}

TEST_CASE("until then common practice is taken, and said") {
    const auto practice = [](const std::vector<BakeEntry>& bakes) {
        const ProofDoubling doubling = doubling_for(proof_doublings(bakes), "starter");
        CHECK_FALSE(doubling.interval);
        CHECK(doubling.proofs == 0);
        CHECK(doubling.sentence ==
              "starter dough is taken to prove twice as fast for every 9 \u00b0C more (8 to 10, "
              "common practice, no source)");
        return doubling.degrees;
    };
    CHECK(practice({}) == 9);
    CHECK(practice({proved(1, 20, 90), proved(2, 26, 60), proved(3, 23, 75)}) == 9);  // 1 df
    // Warmer took no less: nothing is learnt.
    CHECK(practice({proved(1, 20, 60), proved(2, 22, 66), proved(3, 24, 60), proved(4, 26, 66),
                    proved(5, 28, 63)}) == 9);
    // Dents that only say too early or too late are no readiness.
    std::vector<BakeEntry> early;
    for (int i = 1; i <= 6; ++i)
        early.push_back(proved(i, 18 + 2 * i, std::exp2(8 - i / 4.0), "springs back"));
    CHECK(practice(early) == 9);
    // All at one temperature.
    CHECK(practice({proved(1, 24, 60), proved(2, 24, 66), proved(3, 24, 64), proved(4, 24, 61),
                    proved(5, 24, 62)}) == 9);
}

TEST_CASE("over proof, loaves proved alike are one point, and a split dough is a block") {
    const Trend trend = find_trend({dough(1, {{60, 0.30}, {60, 0.32}, {90, 0.37}}),
                                    dough(2, {{60, 0.20}, {90, 0.26}}), dough(3, {{75, 0.4}})},
                                   by_proof);
    REQUIRE(trend.groups.size() == 1);
    const auto& points = trend.groups[0].points;
    REQUIRE(points.size() == 5);
    CHECK(points[0].x == 60);
    CHECK(points[0].y == Approx(0.31));
    CHECK(points[0].loaves == std::vector{1, 2});
    CHECK(points[0].slices == 2);
    CHECK(points[0].split_dough);
    REQUIRE(trend.common);
    // Within doughs: 0.06 and 0.06 in 30 minutes; the third dough has no say on the slope.
    CHECK(trend.common->slope.value == Approx(0.002));
    CHECK(trend.common->points == 5);
    CHECK(trend.common->bakes == 3);
    CHECK(trend.common->intercepts == 3);
    CHECK(trend.common->degrees_of_freedom == 1);
    CHECK_FALSE(trend.common->within_doughs);
    CHECK_FALSE(trend.common->robust);
    CHECK(trend.sentence.find("5 points less 4 fitted numbers (3 intercepts and a slope)") !=
          std::string::npos);
}

TEST_CASE("where split doughs suffice, doughs proved whole have no say on the slope") {
    std::vector<BakeEntry> bakes{dough(1, {{60, 0.30}, {90, 0.361}}),
                                 dough(2, {{60, 0.20}, {90, 0.259}}),
                                 dough(3, {{60, 0.25}, {90, 0.312}}),
                                 dough(4, {{60, 0.22}, {90, 0.278}}),
                                 dough(5, {{30, 0.5}}),
                                 dough(6, {{120, 0.1}})};
    const Trend trend = find_trend(bakes, by_proof);
    REQUIRE(trend.common);
    CHECK(trend.common->within_doughs);
    CHECK(trend.common->slope.value == Approx(0.002));
    CHECK(trend.common->degrees_of_freedom == 3);
    CHECK(trend.common->points == 8);
    CHECK(trend.groups[0].points.size() == 10);
    CHECK(trend.sentence ==
          "openness rises by 0.02000 in 10 minutes of final proof, 95 % interval 0.01903 to "
          "0.02097, from 8 proofs of 4 doughs of one flour, each dough held against itself");
    CHECK_FALSE(trend.groups[0].line[0].interval);
}

TEST_CASE("as at 25 degrees, what was proved too cold is left out and counted") {
    BakeEntry cold = dough(1, {{600, 0.4}});
    cold.loaves[0].loaf.facts.proof_temperature = Celsius(5);
    BakeEntry warm = dough(2, {{60, 0.3}});
    warm.bake.room_temperature = Celsius(16);
    BakeEntry plain = dough(3, {{60, 0.35}});
    plain.bake.room_temperature = Celsius(25);
    const BakeEntry unknown = dough(4, {{60, 0.35}});
    const Trend trend =
        find_trend({cold, warm, plain, unknown}, {.against = Against::proof_at_25c});
    CHECK(trend.outside_temperature == 1);
    CHECK(trend.without_value == 1);
    REQUIRE(trend.groups[0].points.size() == 2);
    CHECK(trend.groups[0].points[0].x == Approx(30));
    CHECK(trend.groups[0].points[1].x == Approx(60));
    REQUIRE(trend.doublings.size() == 1);
    CHECK(trend.doublings[0].degrees == 9);
    CHECK(find_trend({cold}, {.against = Against::proof_at_25c}).why_none ==
          "all loaves whose proof's time and temperature are known were proved colder than 15 or "
          "warmer than 32 \u00b0C, where minutes cannot be brought to 25 \u00b0C");
    CHECK(find_trend({cold, unknown}, {.against = Against::proof_at_25c})
              .why_none.ends_with("; 1 bake lacks openness or a final proof whose time and "
                                  "temperature are noted (loafmark bake edit BAKE --proof 75min "
                                  "--proof-temperature 26C)"));
}
