#include "statistics/repeatability.h"

#include <cmath>
#include <string>
#include <vector>

#include "catch.h"

using namespace loafmark::statistics;

TEST_CASE("repeats are pooled over sets, whatever their levels") {
    // By hand: squares 2 + 0.5 + 2 on 1 + 1 + 2 degrees.
    const auto found = pooled_repeatability({{1, 3}, {50, 51}, {9, 10, 11}, {7}});
    REQUIRE(found);
    CHECK(found->degrees_of_freedom == 4);
    CHECK(found->sets == 3);
    CHECK(found->sd == Approx(std::sqrt(4.5 / 4)));
    // Chi-squared of 4 degrees: 0.484419 and 11.143287 (tables).
    CHECK(found->interval.low == Approx(std::sqrt(4.5 / 11.143287)).epsilon(1e-6));
    CHECK(found->interval.high == Approx(std::sqrt(4.5 / 0.484419)).epsilon(1e-6));
}

TEST_CASE("the limit is Student's t times root two times the scatter") {
    const auto found = pooled_repeatability({{1, 3}, {50, 51}, {9, 10, 11}});
    // t(0.975, 4) = 2.776445105 (tables).
    CHECK(*found->limit() == Approx(2.776445105 * std::sqrt(2.0) * found->sd).epsilon(1e-8));
    CHECK(*found->limit(2, 2) == Approx(2.776445105 * found->sd).epsilon(1e-8));
    // With very many repeats it is the 2.77 s_r of ISO 5725-6.
    std::vector<std::vector<double>> many;
    for (int i = 0; i < 20000; ++i)
        many.push_back({0, 2});
    const auto sure = pooled_repeatability(many);
    CHECK(*sure->limit() / sure->sd == Approx(1.96 * std::sqrt(2.0)).epsilon(1e-3));
}

TEST_CASE("under three degrees of freedom nothing can be told") {
    const auto two = pooled_repeatability({{1, 3}, {5, 6}});
    REQUIRE(two);
    CHECK_FALSE(two->limit());
    CHECK_FALSE(pooled_repeatability({{1}, {2}}));
    CHECK_FALSE(pooled_repeatability({}));
}

// Colour of five breads served twice to eight judges, bread by bread, judges in order: Bro 1998
// (the bread data of R's sNPLS 1.0.27). Repeat SD of one judge 1.06653645, worked apart.
TEST_CASE("a bread panel's own scatter comes from breads served twice") {
    const std::string first = "2113224032244431314433212235332311111111";
    const std::string second = "1001131321222333103223443345245410131301";
    std::vector<std::vector<double>> pairs;
    for (std::size_t i = 0; i < first.size(); ++i)
        pairs.push_back({double(first[i] - '0'), double(second[i] - '0')});
    const auto panel = pooled_repeatability(pairs);
    CHECK(panel->sd == Approx(1.06653645).epsilon(1e-8));
    CHECK(panel->degrees_of_freedom == 40);
}
