#include "statistics/robust_slope.h"

#include <random>
#include <vector>

#include "catch.h"

using namespace loafmark::statistics;

namespace {

std::vector<Point> rising() {
    const std::vector<double> y{3.1, 3.22, 3.15, 3.41, 3.38, 3.52,
                                4.6, 3.61, 3.7,  3.66, 3.85, 3.91};
    std::vector<Point> points;
    for (std::size_t i = 0; i < y.size(); ++i)
        points.push_back({static_cast<double>(i), y[i]});
    return points;
}

}  // namespace

TEST_CASE("the robust slope and its interval agree with Theil and Sen") {
    // Made up, one value far off; computed with SciPy's theilslopes: the ordinary slope is 0.0747
    // with 0.014 to 0.135, this one hardly notices.
    const auto slope = robust_slope(rising());
    REQUIRE(slope);
    CHECK(slope->slope == Approx(0.07285714285714286).epsilon(1e-12));
    REQUIRE(slope->interval);
    CHECK(slope->interval->low == Approx(0.058).epsilon(1e-12));
    CHECK(slope->interval->high == Approx(0.0875).epsilon(1e-12));
}

TEST_CASE("five points have an exact interval, four have none") {
    // Kendall's distribution: 1 of 120 orders has no pair in disorder, 5 of 120 at most one (2 x
    // 5/120 = 8 %), so with five points the ends are the least and greatest of all slopes; with
    // four, 2/24 is already more than 5 %.
    const std::vector<Point> five{{0, 0}, {1, 1.1}, {2, 1.9}, {3, 3.3}, {4, 3.9}};
    const auto slope = robust_slope(five);
    REQUIRE(slope->interval);
    CHECK(slope->interval->low == Approx(0.6));
    CHECK(slope->interval->high == Approx(1.4));
    CHECK_FALSE(robust_slope(std::span(five).first(4))->interval);
}

TEST_CASE("pairs of equal x say nothing of a slope") {
    CHECK_FALSE(robust_slope(std::vector<Point>{{1, 2}, {1, 3}}));
    CHECK(robust_slope(std::vector<Point>{{1, 2}, {1, 4}, {2, 5}})->slope == Approx(2));
    CHECK_FALSE(robust_slope(std::vector<Point>(most_points_for_robust_slope + 1, {1, 2})));
}

TEST_CASE("in 500 made-up sets of eight points the robust interval holds the slope") {
    // Nominal 95 %, conservative by the steps of Kendall's distribution; four standard errors.
    std::mt19937_64 dice(20260302);
    std::normal_distribution<double> normal;
    int held = 0;
    for (int set = 0; set < 500; ++set) {
        std::vector<Point> points;
        for (int i = 0; i < 8; ++i)
            points.push_back({60.0 + 3 * i, 0.01 * i * 3 + 0.03 * normal(dice)});
        const auto slope = robust_slope(points);
        if (slope->interval->low <= 0.01 && 0.01 <= slope->interval->high) ++held;
    }
    CHECK(held >= 455);
    CHECK(held <= 498);
}
