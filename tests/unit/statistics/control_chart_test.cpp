#include "statistics/control_chart.h"

#include <vector>

#include "catch.h"

using namespace loafmark::statistics;

TEST_CASE("limits agree with the handbook's worked chart of individual values") {
    // NIST/SEMATECH e-Handbook 6.3.2.2, flow rates of ten batches (from memory: centre 50.81, mean
    // moving range 1.8778, limits 45.8159 and 55.8041 with 1.128 to three decimals).
    const std::vector<double> flow{49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1};
    const auto chart = control_chart(flow);
    REQUIRE(chart);
    CHECK(chart->centre == Approx(50.81));
    CHECK(chart->low == Approx(45.8159).epsilon(1e-4));
    CHECK(chart->high == Approx(55.8041).epsilon(1e-4));
    CHECK(chart->outside.empty());
    CHECK_FALSE(chart->drifting());
}

TEST_CASE("eight in a row on one side are a drift, seven are not") {
    std::vector<double> values{8, 9, 8, 9, 8, 9, 8, 9, 11, 12, 11, 12, 11, 12, 11};
    const auto seven = control_chart(values);
    CHECK(seven->last_run == 7);
    CHECK_FALSE(seven->drifting());
    values.push_back(12);
    const auto eight = control_chart(values);
    CHECK(eight->last_run == 8);
    CHECK(eight->last_run_above);
    CHECK(eight->drifting());
    CHECK(eight->in_runs.size() == 16);
}

TEST_CASE("a single far value lies outside") {
    const auto chart = control_chart(
        std::vector<double>{10, 11, 10, 11, 10, 11, 10, 11, 10, 11, 10, 11, 10, 11, 25});
    REQUIRE(chart->outside.size() == 1);
    CHECK(chart->outside[0] == 14);
}

TEST_CASE("too few or equal values have no limits") {
    CHECK_FALSE(control_chart(std::vector<double>{1, 2, 3, 4, 5}));
    CHECK_FALSE(control_chart(std::vector<double>(10, 3.0)));
}
