#include "insight/questions.h"

#include "catch.h"
#include "made_up_bakes.h"

using namespace loafmark;
using namespace loafmark::insight;

namespace {

// Openness 0.10, 0.15, ... of so many bakes.
std::vector<journal::BakeEntry> bakes(int n) {
    std::vector<journal::BakeEntry> list;
    for (int i = 0; i < n; ++i)
        list.push_back(made_up::bake(i + 1, {2026, 3, i + 1}, "Wheat", 1, 70, 0.10 + 0.05 * i));
    return list;
}

const Question& how_open() {
    return questions[1];
}

Estimate between(double value, double low, double high) {
    return {value, low, high, {}, {}};
}

// Openness in the lower, middle and upper bands, each with an interval of 0.02 to either side.
journal::Reading with_profile(double base, double middle, double crown) {
    journal::Reading reading;
    for (std::size_t i = 0; i < 10; ++i) {
        const double value = i < 3 ? base : i < 7 ? middle : crown;
        reading.values[static_cast<Measure>(static_cast<std::size_t>(Measure::openness_profile_1) +
                                            i)] = between(value, value - 0.02, value + 0.02);
    }
    return reading;
}

}  // namespace

TEST_CASE("what is usual is parted into thirds by the journal's own bakes") {
    CHECK_FALSE(usual_of(bakes(5), Measure::openness));
    auto seven = bakes(7);
    const auto usual = usual_of(seven, Measure::openness);
    REQUIRE(usual);
    // Type 7 quantiles of 0.10, 0.15, ... 0.40 at 1/3 and 2/3: (7 - 1) / 3 = 2 steps each.
    CHECK(usual->bakes == 7);
    CHECK(usual->least == Approx(0.10));
    CHECK(usual->thirds[0] == Approx(0.20));
    CHECK(usual->thirds[1] == Approx(0.30));
    CHECK(usual->quarters[0] == Approx(0.175));
    CHECK(usual->most == Approx(0.40));
    seven[0].bake.set_aside = "forgot the salt";
    CHECK(usual_of(seven, Measure::openness)->bakes == 6);
}

TEST_CASE("a place is told no finer than the interval allows") {
    const Usual usual = *usual_of(bakes(7), Measure::openness);
    CHECK(place_of(between(0.12, 0.11, 0.13), how_open(), usual) == "close");
    CHECK(place_of(between(0.25, 0.22, 0.28), how_open(), usual) == "medium");
    CHECK(place_of(between(0.31, 0.28, 0.34), how_open(), usual) == "medium to open");
    CHECK_FALSE(place_of(between(0.25, 0.15, 0.35), how_open(), usual));
}

TEST_CASE("a slice's answer names its place, its value and its interval") {
    const auto usual = usual_of(bakes(7), Measure::openness);
    journal::Reading reading;
    CHECK_FALSE(answer(reading, how_open(), usual));
    reading.values[Measure::openness] = between(0.36, 0.34, 0.38);
    CHECK(answer(reading, how_open(), usual) ==
          "Open among this journal's 7 bakes: 0.360 (0.340 to 0.380).");
    CHECK(answer(reading, how_open(), std::nullopt) ==
          "0.360 (0.340 to 0.380); too few bakes were measured to say what is usual here.");
    reading.values[Measure::openness] = between(0.25, 0.15, 0.35);
    CHECK(answer(reading, how_open(), usual)->find("too wide an interval") != std::string::npos);
}

TEST_CASE("evenness is held against chance too") {
    journal::Reading reading;
    reading.values[Measure::unevenness] = between(0.5, 0.4, 0.6);
    reading.values[Measure::unevenness_expected] = between(0.3, 0.25, 0.35);
    const auto words = [&] { return *answer(reading, questions[3], std::nullopt); };
    CHECK(words().find("More uneven than these cells would be") != std::string::npos);
    reading.values[Measure::unevenness] = between(0.31, 0.2, 0.4);
    CHECK(words().find("As even as these cells would be") != std::string::npos);
    reading.values[Measure::unevenness] = between(0.2, 0.15, 0.25);
    CHECK(words().find("More even than these cells would be") != std::string::npos);
}

TEST_CASE("where a slice differs is told where intervals part") {
    CHECK(where_different(with_profile(0.2, 0.25, 0.3)) ==
          "More open towards the crown (0.300) than at the base (0.200).");
    CHECK(where_different(with_profile(0.3, 0.3, 0.2))->starts_with("More open at the base"));
    CHECK(where_different(with_profile(0.2, 0.4, 0.2))->starts_with("Most open in the middle"));
    CHECK(where_different(with_profile(0.2, 0.21, 0.22)) ==
          "From base to crown no difference that the intervals allow to tell.");
    CHECK_FALSE(where_different(journal::Reading{}));
}

TEST_CASE("openings wider than others and a dense base are named with their size") {
    journal::Reading reading;
    reading.values[Measure::tunnel_width] = between(40, 39, 41);
    reading.values[Measure::dense_base] = between(7, 6, 8);
    reading.values[Measure::large_cavity_share] = between(0.06, 0.05, 0.07);
    CHECK(where_different(reading) ==
          "A dense layer of 7.0 mm at the base. A tunnel of 40.0 mm. Openings of 10 mm and more "
          "take 6 % of the crumb.");
    reading.values[Measure::dense_base] = between(2, 1, 3);
    CHECK(where_different(reading)->find("dense") == std::string::npos);
}

TEST_CASE("over all bakes the spread and the newest are told") {
    const auto usual = usual_of(bakes(7), Measure::openness);
    CHECK(answer(bakes(7), how_open(), usual) ==
          "7 bakes lie between 0.100 and 0.400, half of them between 0.175 and 0.325. The newest, "
          "Bake 7, is open with 0.400.");
    CHECK(answer(bakes(3), how_open(), std::nullopt).find("too few to say") != std::string::npos);
}

TEST_CASE("of chosen bakes the newest is placed among the whole journal's") {
    const auto usual = usual_of(bakes(20), Measure::openness);
    CHECK(answer(bakes(7), how_open(), usual) ==
          "7 bakes lie between 0.100 and 0.400, half of them between 0.175 and 0.325. The newest, "
          "Bake 7, is close with 0.400, held against the journal's 20 bakes.");
    CHECK(answer(bakes(2), how_open(), usual) ==
          "2 bakes lie between 0.100 and 0.150. The newest, Bake 2, is close with 0.150, held "
          "against the journal's 20 bakes.");
    CHECK(answer(bakes(1), how_open(), usual) ==
          "One bake. The newest, Bake 1, is close with 0.100, held against the journal's 20 "
          "bakes.");
    CHECK(answer(bakes(0), how_open(), usual) == "Measured in none of these bakes.");
}

TEST_CASE("over all bakes it is counted where they differ") {
    auto list = bakes(3);
    list[0].loaves[0].slices[0].reading->values = with_profile(0.2, 0.25, 0.3).values;
    list[1].loaves[0].slices[0].reading->values = with_profile(0.2, 0.2, 0.2).values;
    list[2].loaves[0].slices[0].reading->values[Measure::tunnel_width] = between(40, 39, 41);
    CHECK(where_different(list) ==
          "From base to crown, of 2 slices: 1 more open towards the crown and 1 without a "
          "difference that can be told. Of 3, 1 has a tunnel.");
    list[2].loaves[0].slices[0].slice.place = std::string(journal::end_of_loaf);
    CHECK(
        where_different(list).ends_with("None has a crust that stands off, a tunnel or a dense "
                                        "layer of 5 mm or more at the base."));
    CHECK(where_different(std::vector<journal::BakeEntry>{}) == "No slice was measured.");
}

TEST_CASE("a mean profile is over the slices that have one, ends left out") {
    auto list = bakes(3);
    list[0].loaves[0].slices[0].reading->values = with_profile(0.2, 0.2, 0.2).values;
    list[1].loaves[0].slices[0].reading->values = with_profile(0.4, 0.4, 0.4).values;
    list[2].loaves[0].slices[0].reading->values = with_profile(0.9, 0.9, 0.9).values;
    list[2].loaves[0].slices[0].slice.place = std::string(journal::end_of_loaf);
    const auto profile = mean_profile({&list[0], &list[1], &list[2]});
    REQUIRE(profile);
    CHECK((*profile)[0] == Approx(0.3));
    CHECK((*profile)[9] == Approx(0.3));
    CHECK_FALSE(mean_profile({}));
}
