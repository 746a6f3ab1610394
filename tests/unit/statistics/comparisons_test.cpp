#include "statistics/comparisons.h"

#include <cmath>

#include "catch.h"
#include "published_data.h"

using namespace loafmark::statistics;

namespace {

// Rows are blocks, columns groups.
std::vector<BlockedValue> rows_as_blocks(const std::vector<std::vector<double>>& table) {
    std::vector<BlockedValue> values;
    for (std::size_t row = 0; row < table.size(); ++row)
        for (std::size_t column = 0; column < table[row].size(); ++column)
            values.push_back({static_cast<int>(column), static_cast<int>(row), table[row][column]});
    return values;
}

std::vector<BlockedValue> columns_as_blocks(const std::vector<std::vector<double>>& table) {
    std::vector<BlockedValue> values = rows_as_blocks(table);
    for (BlockedValue& value : values)
        std::swap(value.group, value.block);
    return values;
}

// Unequal sizes: the first bread-rise group has one loaf less, the last two more.
const std::vector<std::vector<double>> unequal{
    {4.5, 5.0, 5.5}, {6.5, 6.5, 10.5, 9.5}, {9.75, 8.75, 6.5, 8.25, 9.0, 8.5}};

}  // namespace

TEST_CASE("bread rise against its shortest proof agrees with Dunnett's test") {
    // Lawson ch. 2; intervals and p by independent quadrature.
    const auto list = against_control(*group_means(bread_rise), 0);
    REQUIRE(list.size() == 2);
    CHECK(list[0].value == Approx(2.8125));
    CHECK(list[0].standard_error == Approx(1.082531755));
    CHECK(list[0].p == Approx(0.051285036).margin(1e-7));
    CHECK(list[0].interval.low == Approx(-0.017166983).margin(1e-5));
    CHECK(list[1].p == Approx(0.046758568).margin(1e-7));
    CHECK(list[1].interval.high == Approx(5.704667).epsilon(1e-5));
    CHECK(list[1].adjustment == Adjustment::dunnett);
}

TEST_CASE("bread rise in pairs agrees with Tukey's test") {
    // Lawson ch. 2, computed with R TukeyHSD.
    const auto list = all_pairs(*group_means(bread_rise));
    REQUIRE(list.size() == 3);
    CHECK(list[0].p == Approx(0.0676257389214).margin(1e-7));
    CHECK(list[0].interval.low == Approx(-0.209934734036).epsilon(1e-5));
    CHECK(list[0].interval.high == Approx(5.83493473404).epsilon(1e-6));
    CHECK(list[1].p == Approx(0.0618204424418).margin(1e-7));
    CHECK(list[2].p == Approx(0.9981643149204).margin(1e-7));
}

TEST_CASE("bromate against none, flours as blocks, agrees with Larmour's data") {
    // Larmour 1941; Dunnett by independent quadrature, Tukey with R TukeyHSD.
    const auto groups = blocked_group_means(rows_as_blocks(loaf_volume), 5);
    REQUIRE(groups);
    CHECK(groups->degrees_of_freedom == 64);
    CHECK(groups->means[0] == Approx(819.117647058824));
    const auto list = against_control(*groups, 0);
    CHECK(list[2].p == Approx(0.0027842861).margin(1e-7));
    CHECK(list[2].interval.low == Approx(14.743345).epsilon(1e-6));
    CHECK(list[3].p == Approx(0.5849899).margin(1e-6));
    const auto pairs = all_pairs(*groups);
    CHECK(pairs[5].p == Approx(6.28719119826e-02).margin(1e-7));  // 3 - 1
    CHECK(pairs[5].interval.low == Approx(-78.3808147132).epsilon(1e-6));
}

TEST_CASE("sixteen flours against the first agree with Larmour's data") {
    // Larmour 1941, by independent quadrature.
    const auto list = against_control(*blocked_group_means(columns_as_blocks(loaf_volume), 17), 0);
    REQUIRE(list.size() == 16);
    CHECK(list[0].p == Approx(0.024238865).margin(1e-6));
    CHECK(list[0].critical_value == Approx(2.9342417).epsilon(1e-4));
    CHECK(list[3].p == Approx(0.99999968).margin(1e-6));
    CHECK(list[4].p == Approx(0.040354673).margin(1e-6));
    CHECK(list[7].p == Approx(0.14390362).margin(1e-6));
}

TEST_CASE("cakes of one recipe in pairs, replicates as blocks, agree with Tukey's test") {
    // Cochran and Cox 1957, recipe A, computed with R TukeyHSD.
    std::vector<std::vector<double>> recipe_a;
    for (std::size_t row = 0; row < cake.size(); row += 3)
        recipe_a.push_back(cake[row]);
    const auto pairs = all_pairs(*blocked_group_means(rows_as_blocks(recipe_a), 6));
    CHECK(pairs[0].p == Approx(0.733753480094).margin(1e-6));
    CHECK(pairs[0].interval.low == Approx(-2.6649990559368).epsilon(1e-6));
    CHECK(pairs[3].p == Approx(8.00239010412e-06).margin(1e-8));
    CHECK(pairs[4].p == Approx(1.24244339383e-02).margin(1e-7));
}

TEST_CASE("groups of unequal size compare as Tukey and Kramer, and Dunnett, have them") {
    // Made-up sizes; p by a trapezoidal quadrature written apart, of 400 by 400 steps.
    const auto pairs = all_pairs(*group_means(unequal));
    CHECK(pairs[0].p == Approx(0.02901883).margin(1e-6));
    CHECK(pairs[1].p == Approx(0.01369945).margin(1e-6));
    CHECK(pairs[2].p == Approx(0.97058737).margin(1e-6));
    const auto list = against_control(*group_means(unequal), 0);
    CHECK(list[0].p == Approx(0.02059917).margin(1e-6));
    CHECK(list[1].p == Approx(0.00961599).margin(1e-6));
}

TEST_CASE("gaps in the days that leave no product form are bounded after Sidak") {
    // Groups 1 and 4 were not baked on day 2, group 2 not on day 0; days differ by 10. Up to three
    // correlations are always products; of six some are not here.
    std::vector<BlockedValue> values;
    for (const auto& [group, day, off] : {std::tuple{0, 0, 0.1},
                                          {0, 1, -0.1},
                                          {0, 2, 0.05},
                                          {1, 0, -0.05},
                                          {1, 1, 0.1},
                                          {2, 1, 0.1},
                                          {2, 2, -0.1},
                                          {3, 0, 0.1},
                                          {3, 1, 0.0},
                                          {3, 2, -0.1},
                                          {4, 0, 0.0},
                                          {4, 1, 0.1}})
        values.push_back({group, day, 10.0 * day + group + off});
    const auto groups = blocked_group_means(values, 5);
    REQUIRE(groups->degrees_of_freedom == 5);
    const auto list = against_control(*groups, 0);
    CHECK(list[0].value == Approx(1).margin(0.3));
    CHECK(list[1].value == Approx(2).margin(0.3));
    for (const Difference& d : list) {
        CHECK(d.adjustment == Adjustment::sidak);
        CHECK(d.critical_value == Approx(t_critical(5, std::pow(0.95, 1.0 / 4))));
        CHECK(d.p > 0);
        CHECK(d.interval.low < d.value);
    }
}

TEST_CASE("blocks that do not tie groups together give no comparison") {
    CHECK_FALSE(blocked_group_means({{0, 0, 1}, {0, 0, 2}, {1, 1, 3}, {1, 1, 4}}, 2));
    CHECK_FALSE(group_means({{1}, {2}}));
}

TEST_CASE("comparisons refuse groups without scatter and a control that is none") {
    CHECK_THROWS_AS(all_pairs(*group_means({{1, 1}, {2, 2}})), std::invalid_argument);
    CHECK_THROWS_AS(against_control(*group_means({{1, 2}, {2, 3}}), 2), std::invalid_argument);
    CHECK_THROWS_AS(group_means({{1, 2}, {}}), std::invalid_argument);
}
