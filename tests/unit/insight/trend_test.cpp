#include "insight/trend.h"

#include <cmath>

#include "catch.h"
#include "made_up_bakes.h"

using namespace loafmark;
using namespace loafmark::insight;
using journal::BakeEntry;

namespace {

const TrendQuestion openness_by_water;

std::vector<BakeEntry> three_flours() {
    // Openness = the flour's own level + 0.01 a point of water + a disturbance that sums to nought.
    return {made_up::bake(1, {2026, 3, 1}, "rye", 1, 60, 0.10 + 0.02),
            made_up::bake(2, {2026, 3, 2}, "rye", 1, 70, 0.20 - 0.04),
            made_up::bake(3, {2026, 3, 3}, "rye", 1, 80, 0.30 + 0.02),
            made_up::bake(4, {2026, 3, 4}, "spelt", 2, 60, 0.20 + 0.02),
            made_up::bake(5, {2026, 3, 5}, "spelt", 2, 70, 0.30 - 0.04),
            made_up::bake(6, {2026, 3, 6}, "spelt", 2, 80, 0.40 + 0.02),
            made_up::bake(7, {2026, 3, 7}, "wheat", 3, 60, 0.30 + 0.02),
            made_up::bake(8, {2026, 3, 8}, "wheat", 3, 70, 0.40 - 0.04),
            made_up::bake(9, {2026, 3, 9}, "wheat", 3, 80, 0.50 + 0.02)};
}

std::vector<BakeEntry> own_slopes(int bakes_of_rye) {
    std::vector<BakeEntry> bakes;
    for (int i = 0; i < bakes_of_rye; ++i)
        bakes.push_back(made_up::bake(i + 1, {2026, 3, i + 1}, "rye", 1, 60 + 5 * i,
                                      0.1 + 0.05 * i + (i % 2 ? 0.01 : 0)));
    for (int i = 0; i < 5; ++i)
        bakes.push_back(made_up::bake(i + 11, {2026, 4, i + 1}, "spelt", 2, 60 + 5 * i,
                                      0.4 - 0.02 * i + (i % 2 ? 0.01 : 0)));
    return bakes;
}

std::string why(const std::vector<BakeEntry>& bakes) {
    const Trend trend = find_trend(bakes, openness_by_water);
    CHECK_FALSE(trend.common);
    CHECK(trend.sentence == "no trend of openness: " + trend.why_none);
    for (const TrendGroup& group : trend.groups) {
        CHECK_FALSE(group.fit);
        CHECK(group.why_none == trend.why_none);
    }
    return trend.why_none;
}

}  // namespace

TEST_CASE("few bakes of several flours share one slope with an intercept for each") {
    const Trend trend = find_trend(three_flours(), openness_by_water);
    REQUIRE(trend.common);
    CHECK(trend.common->model == TrendModel::common_slope);
    CHECK(trend.common->slope.value == Approx(0.01));
    CHECK(trend.common->degrees_of_freedom == 5);
    // Residual sum of squares 3 * (4 + 16 + 4) e-4; sum of squares of water 3 * 200.
    CHECK(*trend.common->residual_sd == Approx(std::sqrt(0.0072 / 5)));
    CHECK(*trend.common->slope.standard_error == Approx(std::sqrt(0.0072 / 5 / 600)));
    // 2.570581837 is t for 5 degrees of freedom.
    CHECK(trend.common->slope.interval->high ==
          Approx(0.01 + 2.570581837 * std::sqrt(0.0072 / 5 / 600)));
    REQUIRE(trend.groups.size() == 3);
    CHECK(trend.groups[1].name == "spelt");
    CHECK(trend.groups[1].intercept->value == Approx(0.3 - 0.7));
    CHECK(trend.groups[1].fit->slope == trend.common->slope);
    CHECK(trend.sentence ==
          "openness rises by 0.0100 a point of water, 95 % interval 0.0060 to 0.0140, from 9 bakes "
          "of "
          "3 flours, one common slope");
}

TEST_CASE("slices of one bake are averaged, never counted as repeats") {
    std::vector<BakeEntry> bakes = three_flours();
    const Trend before = find_trend(bakes, openness_by_water);
    for (BakeEntry& bake : bakes) {
        const double openness =
            bake.loaves[0].slices[0].reading->values.at(Measure::openness).value;
        bake.loaves[0].slices = {
            made_up::slice(1, {{Measure::openness, made_up::about(openness - 0.05)}}),
            made_up::slice(2, {{Measure::openness, made_up::about(openness + 0.05)}})};
    }
    const Trend after = find_trend(bakes, openness_by_water);
    CHECK(after.common->degrees_of_freedom == before.common->degrees_of_freedom);
    CHECK(after.common->slope.value == Approx(before.common->slope.value));
    CHECK(after.common->slope.interval->low == Approx(before.common->slope.interval->low));
    CHECK(after.groups[0].points[0].slices == 2);
}

TEST_CASE("each flour has a slope of its own once every flour has five bakes") {
    const Trend four = find_trend(own_slopes(4), openness_by_water);
    CHECK(four.groups[0].fit->model == TrendModel::common_slope);
    const Trend five = find_trend(own_slopes(5), openness_by_water);
    REQUIRE(five.common);
    CHECK(five.common->model == TrendModel::common_slope);
    CHECK(five.groups[0].fit->model == TrendModel::own_slope);
    CHECK(five.groups[0].fit->slope.value == Approx(0.01));
    CHECK(five.groups[1].fit->slope.value == Approx(-0.004));
    CHECK(five.groups[1].fit->degrees_of_freedom == 3);
    CHECK(five.groups[1].fit->groups == 1);
    CHECK(five.sentence.find("taken alone, rye 0.0100 (95 % interval") != std::string::npos);
}

TEST_CASE("one flour alone has an ordinary line") {
    const Trend trend = find_trend(own_slopes(5), {.flour = journal::FlourId{2}});
    REQUIRE(trend.groups.size() == 1);
    CHECK(trend.common->model == TrendModel::line);
    CHECK(trend.groups[0].fit->model == TrendModel::line);
    CHECK(trend.sentence.starts_with("openness falls by 0.004"));
    CHECK(trend.sentence.ends_with("from 5 bakes of one flour"));
}

TEST_CASE("of a fall the interval is that of the fall, smaller number first") {
    std::vector<BakeEntry> bakes;
    for (int i = 0; i < 6; ++i)
        bakes.push_back(made_up::bake(i + 1, {2026, 3, 1}, "rye", 1, 60 + i,
                                      0.9 - 0.1 * i + (i % 2 ? 0.01 : 0)));
    CHECK(find_trend(bakes, openness_by_water).sentence ==
          "openness falls by 0.0991 a point of water, 95 % interval 0.0953 to 0.1030, from 6 bakes "
          "of "
          "one flour");
}

TEST_CASE("an interval that holds zero is said to show neither rise nor fall") {
    const std::vector<BakeEntry> bakes = {made_up::bake(1, {2026, 3, 1}, "rye", 1, 60, 0.3),
                                          made_up::bake(2, {2026, 3, 2}, "rye", 1, 65, 0.5),
                                          made_up::bake(3, {2026, 3, 3}, "rye", 1, 70, 0.2),
                                          made_up::bake(4, {2026, 3, 4}, "rye", 1, 75, 0.5)};
    const Trend trend = find_trend(bakes, openness_by_water);
    CHECK(trend.sentence ==
          "openness changes by 0.006 a point of water, 95 % interval -0.062 to 0.074, from 4 bakes "
          "of one flour: the interval holds zero, so these bakes do not show whether it rises or "
          "falls");
}

TEST_CASE("fewer than two degrees of freedom give a slope without an interval, and why") {
    const std::vector<BakeEntry> bakes = {made_up::bake(1, {2026, 3, 1}, "rye", 1, 60, 0.3),
                                          made_up::bake(2, {2026, 3, 2}, "rye", 1, 70, 0.4),
                                          made_up::bake(3, {2026, 3, 3}, "rye", 1, 80, 0.6),
                                          made_up::bake(4, {2026, 3, 4}, "spelt", 2, 70, 0.5)};
    const Trend trend = find_trend(bakes, openness_by_water);
    REQUIRE(trend.common);
    CHECK(trend.common->slope.value == Approx(0.015));
    CHECK_FALSE(trend.common->slope.interval);
    CHECK(trend.common->why_no_interval ==
          "4 bakes less 3 fitted numbers (2 intercepts and a slope) leave 1 degree of freedom, and "
          "at least 2 are wanted");
    CHECK(
        trend.sentence ==
        "openness changes by 0.0150 a point of water, from 4 bakes of 2 flours, one common slope; "
        "no interval: " +
            trend.common->why_no_interval);
    for (const statistics::FittedPoint& place : trend.groups[0].line)
        CHECK_FALSE(place.interval);
}

TEST_CASE("bakes set aside are left out and counted") {
    std::vector<BakeEntry> bakes = three_flours();
    bakes.push_back(made_up::bake(10, {2026, 3, 10}, "rye", 1, 90, 0.0));
    bakes.back().bake.set_aside = "forgot the salt";
    const Trend trend = find_trend(bakes, openness_by_water);
    CHECK(trend.common->slope.value == Approx(0.01));
    CHECK(trend.set_aside == 1);
}

TEST_CASE("bakes without the measure, the water or a flour are left out and counted") {
    std::vector<BakeEntry> bakes = three_flours();
    bakes[0].hydration.reset();
    bakes[3].loaves.clear();
    bakes[6].flours.clear();
    const Trend trend = find_trend(bakes, openness_by_water);
    CHECK(trend.without_value == 3);
    CHECK(trend.common->bakes == 6);
}

TEST_CASE("a trend that cannot be had says why") {
    const auto bake = [](int id, const char* flour, int flour_id, double water, double openness) {
        return made_up::bake(id, {2026, 3, id}, flour, flour_id, water, openness);
    };
    CHECK(why({}) == "there are no bakes yet");
    CHECK(why({bake(1, "rye", 1, 70, 0.3)}) ==
          "there is one bake only; a trend wants at least two that differ in water");
    CHECK(why({bake(1, "rye", 1, 70, 0.3), bake(2, "rye", 1, 70, 0.4)}) ==
          "all 2 bakes have the same water, 70.0 %");
    CHECK(why({bake(1, "rye", 1, 70, 0.3), bake(2, "spelt", 2, 75, 0.4)}) ==
          "no flour was baked twice with different water, so flour and water cannot be told apart");
    CHECK(why({bake(1, "rye", 1, 70, 0.3), bake(2, "rye", 1, 75, 0.3),
               bake(3, "rye", 1, 80, 0.3)}) == "openness is the same in all bakes");
    BakeEntry set_aside = bake(1, "rye", 1, 70, 0.3);
    set_aside.bake.set_aside = "burnt";
    CHECK(why({set_aside}) == "the only bake is set aside");
    BakeEntry unmeasured = bake(1, "rye", 1, 70, 0.3);
    unmeasured.loaves.clear();
    CHECK(why({unmeasured}) == "no bake has both openness and a known hydration");
}

TEST_CASE("what is weighed of a loaf goes into a trend without a slice") {
    std::vector<BakeEntry> bakes;
    for (int i = 0; i < 4; ++i) {
        bakes.push_back(made_up::bake(i + 1, {2026, 3, 1 + i}, "rye", 1, 66 + 2 * i, 0.3));
        bakes.back().loaves[0].slices.clear();
        const double volume = 3.0 + 0.2 * i + (i % 2 ? 0.01 : 0);
        bakes.back().loaves[0].weighed[Measure::specific_volume] = {volume, volume, volume, {}, {}};
    }
    const Trend trend = find_trend(bakes, {.measure = Measure::specific_volume});
    REQUIRE(trend.common);
    CHECK(trend.common->slope.value == Approx(0.1).epsilon(0.05));
    CHECK_FALSE(wants_measured_only({.measure = Measure::specific_volume}));
}

TEST_CASE("a trend over time counts days and speaks of thirty") {
    std::vector<BakeEntry> bakes;
    for (int i = 0; i < 5; ++i)
        bakes.push_back(made_up::bake(i + 1, {2026, 3, 1 + 2 * i}, "rye", 1, 70,
                                      0.2 + 0.002 * i + (i % 2 ? 0.0001 : 0)));
    const Trend trend = find_trend(bakes, {.against = Against::date});
    CHECK(trend.groups[0].points[0].x == 20513);  // date -d 2026-03-01 +%s / 86400
    CHECK(trend.common->slope.value == Approx(0.001));
    CHECK(trend.sentence.starts_with("openness rises by 0.03000 in 30 days, 95 % interval"));
}

TEST_CASE("a trend over a flour's share takes bakes by their main flour") {
    std::vector<BakeEntry> bakes;
    for (int i = 0; i < 4; ++i) {
        bakes.push_back(made_up::bake(i + 1, {2026, 3, 1}, "rye", 1, 70, 0.5 - 0.05 * i));
        bakes.back().flours = {made_up::flour(1, "rye", 0.6 + 0.1 * i),
                               made_up::flour(2, "wheat", 0.4 - 0.1 * i)};
    }
    const Trend trend = find_trend(bakes, {.against = Against::share});
    REQUIRE(trend.groups.size() == 1);
    CHECK(trend.groups[0].name == "rye");
    CHECK(trend.common->slope.value == Approx(-0.005));
}

TEST_CASE("lines are drawn over each flour's own range of water") {
    const Trend trend = find_trend(three_flours(), openness_by_water);
    const auto& line = trend.groups[0].line;
    CHECK(line.front().x == 60);
    CHECK(line.back().x == 80);
    // In the middle of three the mean's error is the residual SD / sqrt(3).
    const auto& middle = line[line.size() / 2];
    CHECK(middle.x == Approx(70));
    CHECK(middle.interval->high - middle.y ==
          Approx(2.570581837 * *trend.common->residual_sd / std::sqrt(3)));
}

TEST_CASE("names of what a measure is held against read back") {
    CHECK(against_of_name("hydration") == Against::hydration);
    CHECK(against_of_name("date") == Against::date);
    CHECK(against_of_name("share") == Against::share);
    CHECK_FALSE(against_of_name("moon"));
}

namespace {

BakeEntry with_protein(int id, const char* name, int flour, double protein, double openness) {
    BakeEntry bake = made_up::bake(id, {2026, 3, id}, name, flour, 70, openness);
    bake.flours[0].protein = fraction_from_percent(protein);
    return bake;
}

FlourKinds three_wheats_and_rye() {
    std::vector<journal::Flour> flours(4);
    for (std::size_t i = 0; i < flours.size(); ++i) {
        flours[i].id = {static_cast<std::int64_t>(i) + 1};
        flours[i].grain = i < 3 ? "wheat" : "rye";
        flours[i].grade = "white";
    }
    return kinds_of(flours);
}

}  // namespace

TEST_CASE("protein is compared within one grain and grade, across flours of it") {
    const TrendQuestion question{.against = Against::protein, .kinds = three_wheats_and_rye()};
    const Trend trend =
        find_trend({with_protein(1, "a", 1, 10, 0.30), with_protein(2, "b", 2, 12, 0.35),
                    with_protein(3, "c", 3, 14, 0.40), with_protein(4, "a", 1, 10, 0.31)},
                   question);
    REQUIRE(trend.groups.size() == 1);
    CHECK(trend.groups[0].name == "white wheat");
    CHECK(trend.common->slope.value == Approx(0.024).margin(0.001));
    CHECK(trend.sentence.find("a point of protein") != std::string::npos);
}

TEST_CASE("across grains protein gives no slope, and the reason") {
    const TrendQuestion question{.against = Against::protein, .kinds = three_wheats_and_rye()};
    const Trend trend =
        find_trend({with_protein(1, "a", 1, 10, 0.30), with_protein(2, "b", 2, 12, 0.35),
                    with_protein(3, "c", 3, 14, 0.42), with_protein(4, "rye", 4, 8, 0.1)},
                   question);
    CHECK_FALSE(trend.common);
    CHECK(trend.why_none.starts_with("a percent of protein is not the same protein"));
    CHECK(trend.groups[0].fit->model == TrendModel::own_slope);
    CHECK(trend.sentence.find("taken alone, white wheat 0.03") != std::string::npos);
}

TEST_CASE("a bake of several kinds of flour has no protein to be held against") {
    BakeEntry blend = with_protein(1, "a", 1, 10, 0.3);
    blend.flours.push_back(made_up::flour(4, "rye", 0.3));
    blend.flours[0].share = Fraction(0.7);
    blend.flours[1].protein = fraction_from_percent(9);
    const TrendQuestion question{.against = Against::protein, .kinds = three_wheats_and_rye()};
    CHECK(find_trend({blend}, question).without_value == 1);
}

TEST_CASE("a trend that bends over says where it is highest, with Fieller's interval") {
    // The made-up doughs of the peak's own test: 72.07 %, 71.34 to 73.01 (SciPy).
    const std::vector<double> water{60, 60, 64, 64, 68, 68, 72, 72, 76, 76, 80, 80};
    const std::vector<double> y{3.02, 3.1,  3.35, 3.29, 3.58, 3.49,
                                3.66, 3.71, 3.6,  3.55, 3.31, 3.4};
    std::vector<BakeEntry> bakes;
    for (std::size_t i = 0; i < y.size(); ++i)
        bakes.push_back(made_up::bake(static_cast<int>(i) + 1, {2026, 3, static_cast<int>(i) + 1},
                                      "rye", 1, water[i], y[i] / 10));
    const Trend trend = find_trend(bakes, openness_by_water);
    REQUIRE(trend.bend);
    CHECK(trend.bend->turning_point.interval->low == Approx(71.34368371635142));
    CHECK(trend.sentence.find("it bends, highest at 72.1 % (95 % interval 71.3 % to 73.0 %)") !=
          std::string::npos);
    CHECK(trend.common->robust);
    // Three flours of straight lines do not bend.
    CHECK_FALSE(find_trend(three_flours(), openness_by_water).bend);
}

TEST_CASE("poor readings are left out of a trend and counted") {
    std::vector<BakeEntry> bakes = three_flours();
    bakes[0].loaves[0].slices[0].reading->warnings = {"blurred"};
    const Trend trend = find_trend(bakes, openness_by_water);
    CHECK(trend.common->bakes == 8);
    CHECK(trend.poor_readings == 1);
}

TEST_CASE("temperatures of dough and room can be held against") {
    std::vector<BakeEntry> bakes;
    for (int i = 0; i < 5; ++i) {
        bakes.push_back(made_up::bake(i + 1, {2026, 3, i + 1}, "rye", 1, 70, 0.2 + 0.01 * i));
        bakes.back().bake.dough_temperature = Celsius(22.0 + i);
        bakes.back().bake.room_temperature = Celsius(18.0 + 2 * i);
    }
    CHECK(find_trend(bakes, {.against = Against::dough_temperature}).common->slope.value ==
          Approx(0.01));
    CHECK(find_trend(bakes, {.against = Against::room_temperature}).common->slope.value ==
          Approx(0.005));
    CHECK(unit_of(Against::room_temperature) == "\u00b0C");
}

TEST_CASE("split by bag, the bags of a flour are groups with one slope, known bags or not") {
    std::vector<BakeEntry> bakes;
    for (int i = 0; i < 4; ++i) {
        bakes.push_back(made_up::bake(i + 1, {2026, 3, i + 1}, "rye", 1, 60 + 5 * i,
                                      0.1 + 0.05 * i + (i % 2 ? 0.002 : 0)));
        made_up::draw(bakes.back(), 1, i < 2 ? 3 : 4);
        // Of another flour's bag nothing is told here.
        made_up::draw(bakes.back(), 7, 9);
    }
    bakes.push_back(made_up::bake(9, {2026, 4, 1}, "rye", 1, 70, 0.3));
    const Trend trend = find_trend(
        bakes, {.split = Split::bag, .bag_words = {{journal::BagId{3}, "bag 3 (lot L7)"}}});
    REQUIRE(trend.groups.size() == 3);
    CHECK(trend.groups[0].label() == "rye, bag 3 (lot L7)");
    CHECK(trend.groups[1].label() == "rye, bag 4");
    CHECK(trend.groups[2].label() == "rye, bag not noted");
    CHECK(trend.groups[1].bags == std::vector{journal::BagId{4}});
    CHECK(trend.common->model == TrendModel::common_slope);
    CHECK(trend.common->slope.value == Approx((0.052 + 0.052) / 10));
    CHECK(trend.sentence.find("from 5 bakes of 3 bags, one common slope") != std::string::npos);
    // Not split, it is one flour.
    CHECK(find_trend(bakes, {}).groups.size() == 1);
    CHECK(find_trend(bakes, {}).groups[0].label() == "rye");
}

TEST_CASE("a bake from two bags of its flour is of neither alone") {
    BakeEntry bake = made_up::bake(1, {2026, 3, 1}, "rye", 1, 60, 0.1);
    made_up::draw(bake, 1, 5);
    made_up::draw(bake, 1, 2);
    const Trend trend = find_trend({bake}, {.split = Split::bag});
    CHECK(trend.groups[0].bag == "bag 2 and bag 5");
    CHECK(trend.why_none ==
          "there is one bake only; a trend wants at least two that differ in water");
}

TEST_CASE("one water to a bag parts no bag from water") {
    std::vector<BakeEntry> bakes{made_up::bake(1, {2026, 3, 1}, "rye", 1, 60, 0.1),
                                 made_up::bake(2, {2026, 3, 2}, "rye", 1, 70, 0.2)};
    made_up::draw(bakes[0], 1, 1);
    made_up::draw(bakes[1], 1, 2);
    CHECK(find_trend(bakes, {.split = Split::bag}).why_none ==
          "no bag was baked twice with different water, so bag and water cannot be told apart");
}

TEST_CASE("readings by two versions of the analysis are told of") {
    std::vector<BakeEntry> bakes = three_flours();
    CHECK(find_trend(bakes, openness_by_water).notes.empty());
    bakes[4].loaves[0].slices[0].reading->analysis_version = "classical 2";
    CHECK(find_trend(bakes, openness_by_water).notes.size() == 1);
}
