#include "statistics/quantiles.h"

#include <algorithm>
#include <vector>

#include "catch.h"

using namespace loafmark::statistics;

TEST_CASE("quantiles of type 7 agree with NumPy's") {
    // Invented values; NumPy 1.24.2, method "linear".
    const std::vector<double> x = {12.1, 13.4, 11.8, 15.2, 14.4, 12.9, 13.7, 30.5, 12.2, 14.0};
    CHECK(*quantile(x, 0.1) == Approx(12.07).epsilon(1e-12));
    CHECK(*quantile(x, 0.25) == Approx(12.375).epsilon(1e-12));
    CHECK(*quantile(x, 0.75) == Approx(14.3).epsilon(1e-12));
    CHECK(*quantile(x, 0.9) == Approx(16.73).epsilon(1e-12));
    CHECK(*median(x) == Approx(13.55).epsilon(1e-12));
    CHECK(*mean(x) == Approx(15.02).epsilon(1e-12));
    CHECK(*quantile(x, 0) == 11.8);
    CHECK(*quantile(x, 1) == 30.5);
}

TEST_CASE("a weighted quantile is the first value that holds the share") {
    // Weights 1, 2, 3, 4 of 10: shares 0.1, 0.3, 0.6, 1.
    const std::vector<double> x = {3, 1, 4, 2};
    const std::vector<double> w = {3, 1, 4, 2};
    CHECK(*weighted_quantile(x, w, 0.1) == 1);
    CHECK(*weighted_quantile(x, w, 0.25) == 2);
    CHECK(*weighted_quantile(x, w, 0.5) == 3);
    CHECK(*weighted_quantile(x, w, 0.61) == 4);
    CHECK(*weighted_quantile(x, w, 1) == 4);
}

TEST_CASE("values without weight have no say") {
    const std::vector<double> x = {1, 2, 3};
    CHECK(*weighted_quantile(x, std::vector<double>{0, 1, 0}, 0) == 2);
    CHECK(*weighted_quantile(x, std::vector<double>{0, 1, 0}, 1) == 2);
    CHECK_FALSE(weighted_quantile(x, std::vector<double>{0, 0, 0}, 0.5));
}

TEST_CASE("no values, no quantile") {
    CHECK_FALSE(mean({}));
    CHECK_FALSE(median({}));
    CHECK_FALSE(weighted_quantile({}, {}, 0.5));
    CHECK(*quantile(std::vector<double>{7}, 0.9) == 7);
}

TEST_CASE("quantiles refuse what cannot be") {
    const std::vector<double> x = {1, 2};
    CHECK_THROWS_AS(quantile(x, 1.1), std::invalid_argument);
    CHECK_THROWS_AS(weighted_quantile(x, std::vector<double>{1}, 0.5), std::invalid_argument);
    CHECK_THROWS_AS(weighted_quantile(x, std::vector<double>{1, -1}, 0.5), std::invalid_argument);
}
