#include "statistics/nested.h"

#include <cmath>
#include <random>

#include "catch.h"
#include "published_data.h"

using namespace loafmark::statistics;

TEST_CASE("one layer gives the between and within variances of a one-way table") {
    // Cakes of recipe A by replicate (Cochran and Cox 1957): the intraclass correlation computed
    // with R is 0.43276089706728, whatever the temperature.
    std::vector<NestedValue> values;
    for (std::size_t row = 0; row < cake.size(); row += 3)
        for (const double angle : cake[row])
            values.push_back({{static_cast<int>(row)}, angle});
    const auto parts = variance_components(values);
    REQUIRE(parts.size() == 2);
    CHECK(parts[0].degrees_of_freedom == 14);
    CHECK(parts[1].degrees_of_freedom == 75);
    CHECK(*parts[0].mean_square == Approx(181.9396825397));
    CHECK(*parts[0].variance / (*parts[0].variance + *parts[1].variance) ==
          Approx(0.43276089706728).epsilon(1e-9));
    CHECK(parts[0].interval->low < *parts[0].variance);
    CHECK(parts[0].interval->high > *parts[0].variance);
}

TEST_CASE("two layers agree with the closed form of the cake's mixes within replicates") {
    // Means over temperatures leave replicate, recipe within replicate: with the split plot's mean
    // squares of all recipes pooled into "recipe within replicate", (MS - MS') / 18 and / 6.
    std::vector<NestedValue> values;
    for (std::size_t row = 0; row < cake.size(); ++row)
        for (const double angle : cake[row])
            values.push_back({{static_cast<int>(row / 3), static_cast<int>(row % 3)}, angle});
    const auto parts = variance_components(values);
    REQUIRE(parts.size() == 3);
    // Replicate: 10204.2444444444 / 14; recipe and mix: (135.0888888889 + 1198.4666666667) / 30;
    // the rest: (2100.3 + 205.9777777778 + 4298.8888888889) / 225 (R aov).
    const double replicate = 10204.2444444444 / 14;
    const double mix = (135.0888888889 + 1198.4666666667) / 30;
    const double rest = (2100.3 + 205.9777777778 + 4298.8888888889) / 225;
    CHECK(*parts[0].variance == Approx((replicate - mix) / 18).epsilon(1e-9));
    CHECK(*parts[1].variance == Approx((mix - rest) / 6).epsilon(1e-8));
    CHECK(*parts[2].variance == Approx(rest).epsilon(1e-9));
}

TEST_CASE("unequal numbers are weighted as the textbook's n0 has it") {
    // One-way, sizes 2, 3 and 5: n0 = (N - sum n^2 / N) / (groups - 1) = (10 - 3.8) / 2 = 3.1.
    const std::vector<std::vector<double>> groups{{1, 3}, {4, 6, 8}, {9, 9, 10, 11, 11}};
    std::vector<NestedValue> values;
    for (std::size_t g = 0; g < groups.size(); ++g)
        for (const double value : groups[g])
            values.push_back({{static_cast<int>(g)}, value});
    const auto parts = variance_components(values);
    CHECK(*parts[1].mean_square == Approx((2.0 + 8.0 + 4.0) / 7));
    CHECK(*parts[0].variance ==
          Approx((*parts[0].mean_square - *parts[1].mean_square) / 3.1).epsilon(1e-12));
}

TEST_CASE("an estimate below zero is zero and says so") {
    const auto parts = variance_components({{{1}, 1}, {{1}, 9}, {{2}, 2}, {{2}, 8}});
    CHECK(parts[0].below_zero);
    CHECK(*parts[0].variance == 0);
    CHECK(parts[0].interval->low == 0);
}

TEST_CASE("a layer without repeats has no variance of its own, it is part of the one around it") {
    const auto single = variance_components({{{1}, 1}, {{2}, 2}, {{3}, 4}});
    CHECK(*single[0].variance == Approx(7.0 / 3));  // variance of 1, 2, 4
    CHECK(single[0].holds_inner == 1);
    CHECK_FALSE(single[1].variance);
    const auto one = variance_components({{{1}, 1}, {{1}, 2}});
    CHECK_FALSE(one[0].variance);
    CHECK(*one[1].variance == Approx(0.5));
    // One loaf a dough: the same as without the loaves.
    const auto with = variance_components(
        {{{1, 1, 1}, 1}, {{1, 2, 1}, 2}, {{2, 1, 1}, 6}, {{2, 2, 1}, 5}, {{3, 1, 1}, 3}});
    const auto without =
        variance_components({{{1, 1}, 1}, {{1, 2}, 2}, {{2, 1}, 6}, {{2, 2}, 5}, {{3, 1}, 3}});
    CHECK(*with[0].variance == Approx(*without[0].variance));
    CHECK(*with[1].variance == Approx(*without[1].variance));
    CHECK(with[1].holds_inner == 2);
}

TEST_CASE("in 400 made-up journals the intervals hold the true scatter about 95 times in 100") {
    // 8 days, 2 doughs each, 2 loaves each; variances 4, 1 and 0.25. Four standard errors of the
    // count leave 90.6 to 99.4 %; the simulation of docs/statistics.md is the larger one.
    std::mt19937_64 dice(20260301);
    std::normal_distribution<double> normal;
    const std::vector<double> truth{4, 1, 0.25};
    std::vector<int> held(3, 0);
    constexpr int journals = 400;
    for (int j = 0; j < journals; ++j) {
        std::vector<NestedValue> values;
        for (int day = 0; day < 8; ++day) {
            const double of_day = 2 * normal(dice);
            for (int dough = 0; dough < 2; ++dough) {
                const double of_dough = of_day + normal(dice);
                for (int loaf = 0; loaf < 2; ++loaf)
                    values.push_back({{day, dough}, of_dough + 0.5 * normal(dice)});
            }
        }
        const auto parts = variance_components(values);
        for (std::size_t i = 0; i < truth.size(); ++i)
            if (parts[i].interval->low <= truth[i] && truth[i] <= parts[i].interval->high)
                ++held[i];
    }
    for (const int count : held) {
        CHECK(count >= 0.906 * journals);
        CHECK(count <= 0.994 * journals);
    }
}

TEST_CASE("nested scatter refuses paths of different length") {
    CHECK_THROWS_AS(variance_components({}), std::invalid_argument);
    CHECK_THROWS_AS(variance_components({{{1}, 1}, {{1, 2}, 2}}), std::invalid_argument);
}
