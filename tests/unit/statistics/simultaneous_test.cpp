#include "statistics/simultaneous.h"

#include <cmath>
#include <vector>

#include "catch.h"
#include "statistics/interval.h"

using namespace loafmark::statistics;

namespace {

struct Row {
    int count;
    int degrees;
    double tail;
    double computed;
    double printed;
};

std::vector<double> equal_sizes(int comparisons) {
    return std::vector<double>(static_cast<std::size_t>(comparisons), std::sqrt(0.5));
}

}  // namespace

TEST_CASE("studentised range points agree with the printed table") {
    // Pearson and Hartley 1966 table 29 (printed figures from memory); the longer figures computed
    // with SciPy.
    for (const Row& row : {Row{3, 5, 0.01, 6.97573663, 6.98}, Row{3, 10, 0.01, 5.27016154, 5.27},
                           Row{4, 20, 0.01, 5.01801613, 5.02}, Row{2, 10, 0.05, 3.15106418, 3.15},
                           Row{3, 5, 0.05, 4.60172605, 4.60}, Row{3, 9, 0.05, 3.9484922, 3.95},
                           Row{3, 60, 0.05, 3.39866124, 3.40}, Row{4, 30, 0.05, 3.84540135, 3.85},
                           Row{5, 60, 0.05, 3.97741822, 3.98}, Row{6, 12, 0.05, 4.75023145, 4.75},
                           Row{10, 20, 0.05, 5.00788267, 5.01}}) {
        const double q = studentised_range_quantile(1 - row.tail, row.count, row.degrees);
        CHECK(q == Approx(row.computed).epsilon(1e-6));
        CHECK(std::abs(q - row.printed) <= 0.005 + 1e-9);
    }
    // Larmour's 17 flours, computed with R.
    CHECK(studentised_range_quantile(0.95, 17, 64) == Approx(5.09300052775718).epsilon(1e-6));
}

TEST_CASE("Dunnett points agree with the printed table") {
    // Dunnett 1964, Biometrics 20:482, table II (printed figures from memory); the longer figures
    // by independent quadrature.
    for (const Row& row : {Row{2, 10, 0.01, 3.5313012, 3.53}, Row{4, 20, 0.01, 3.3953849, 3.40},
                           Row{1, 10, 0.05, 2.2281389, 2.23}, Row{2, 5, 0.05, 3.0302359, 3.03},
                           Row{2, 9, 0.05, 2.6139344, 2.61}, Row{3, 10, 0.05, 2.758997, 2.76},
                           Row{4, 60, 0.05, 2.5083902, 2.51}, Row{5, 5, 0.05, 3.6151172, 3.62},
                           Row{5, 20, 0.05, 2.7346772, 2.73}}) {
        const double d = dunnett_quantile(1 - row.tail, equal_sizes(row.count), row.degrees);
        CHECK(d == Approx(row.computed).epsilon(1e-6));
        CHECK(std::abs(d - row.printed) <= 0.005 + 1e-9);
    }
}

TEST_CASE("one comparison alone is Student's t") {
    for (const int degrees : {1, 2, 3, 10, 1000}) {
        CHECK(dunnett_quantile(0.95, equal_sizes(1), degrees) ==
              Approx(t_critical(degrees)).epsilon(1e-6));
        CHECK(studentised_range_quantile(0.95, 2, degrees) / std::sqrt(2.0) ==
              Approx(t_critical(degrees)).epsilon(1e-6));
    }
}

TEST_CASE("more comparisons ask for more, and independent ones for the most") {
    CHECK(dunnett_quantile(0.95, equal_sizes(3), 8) > dunnett_quantile(0.95, equal_sizes(2), 8));
    CHECK(dunnett_quantile(0.95, std::vector<double>{0, 0}, 8) >
          dunnett_quantile(0.95, equal_sizes(2), 8));
    CHECK(dunnett_cdf(0, equal_sizes(2), 8) == 0);
    CHECK(studentised_range_cdf(-1, 3, 8) == 0);
}

TEST_CASE("impossible distributions are refused") {
    CHECK_THROWS_AS(studentised_range_cdf(3, 1, 5), std::invalid_argument);
    CHECK_THROWS_AS(studentised_range_cdf(3, 3, 0), std::invalid_argument);
    CHECK_THROWS_AS(dunnett_cdf(2, std::vector<double>{}, 5), std::invalid_argument);
    CHECK_THROWS_AS(dunnett_cdf(2, std::vector<double>{1}, 5), std::invalid_argument);
    CHECK_THROWS_AS(dunnett_quantile(1, equal_sizes(2), 5), std::invalid_argument);
}
