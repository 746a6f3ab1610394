#include "statistics/power.h"

#include <cmath>
#include <stdexcept>

#include "catch.h"
#include "statistics/interval.h"

using namespace loafmark::statistics;

namespace {

// Two groups of n each, standardised difference d, two-sided.
double two_groups(int n, double d, double size = 0.05) {
    const int df = 2 * n - 2;
    return power(d * std::sqrt(n / 2.0), df, t_critical(df, 1 - size));
}

int smallest_n(double d, double chance, double size) {
    int n = 2;
    while (two_groups(n, d, size) < chance)
        ++n;
    return n;
}

}  // namespace

TEST_CASE("two groups have the power that published tables give") {
    // Cohen 1992, A power primer, Psychological Bulletin 112:155-159, table 2 (row 1, difference of
    // two means, power 0.80): small, medium and large effects at three sizes of the test. The table
    // was typed from memory. It rounds by the tables of his book of 1988, so one either way is its
    // own error.
    const struct {
        double size, d;
        int n;
    } table[] = {{0.01, 0.2, 586}, {0.01, 0.5, 95}, {0.01, 0.8, 38},
                 {0.05, 0.2, 393}, {0.05, 0.5, 64}, {0.05, 0.8, 26},
                 {0.10, 0.2, 310}, {0.10, 0.5, 50}, {0.10, 0.8, 20}};
    for (const auto& row : table) {
        INFO("size " << row.size << ", d " << row.d);
        CHECK(std::abs(smallest_n(row.d, 0.80, row.size) - row.n) <= 1);
    }
    // R's help page of power.t.test, its first and second example: n = 20, delta = 1, sd = 1 has
    // power 0.8689528; power 0.90 wants n = 22.02110 (outputs from memory).
    CHECK(std::abs(two_groups(20, 1) - 0.8689528) < 1e-6);
    CHECK(smallest_n(1, 0.90, 0.05) == 23);
    CHECK(two_groups(22, 1) < 0.90);
}

TEST_CASE("with nothing to see, the chance is the size of the test") {
    for (const int df : {1, 2, 5, 30})
        CHECK(std::abs(power(0, df, t_critical(df)) - 0.05) < 1e-10);
    CHECK(power(1e-6, 5, t_critical(5)) - 0.05 < 1e-6);
}

TEST_CASE("the ratio that is seen has that chance, and a sure thing is sure") {
    for (const int df : {1, 2, 4, 20})
        for (const double chance : {0.5, 0.8, 0.95}) {
            INFO("df " << df << ", chance " << chance);
            CHECK(std::abs(power(ratio_seen(chance, df, 3), df, 3) - chance) < 1e-8);
        }
    CHECK(power(400, 4, 3) == 1);
    CHECK(power(-2, 4, 3) == power(2, 4, 3));
    CHECK_THROWS_AS(power(1, 0, 2), std::invalid_argument);
    CHECK_THROWS_AS(power(1, 3, 0), std::invalid_argument);
    CHECK_THROWS_AS(ratio_seen(1, 3, 2), std::invalid_argument);
}
