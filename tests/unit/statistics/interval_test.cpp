#include "statistics/interval.h"

#include "catch.h"

using loafmark::statistics::t_critical;

TEST_CASE("t critical values agree with the printed tables") {
    struct Row {
        double alpha;
        int df;
        double computed;  // SciPy 1.10.1
        double printed;   // NIST/SEMATECH e-Handbook, 1.3.6.7.2
    };
    const Row row = GENERATE(Row{0.05, 1, 12.70620474, 12.706}, Row{0.05, 2, 4.30265273, 4.303},
                             Row{0.05, 3, 3.182446305, 3.182}, Row{0.05, 5, 2.570581837, 2.571},
                             Row{0.05, 10, 2.228138852, 2.228}, Row{0.05, 30, 2.042272456, 2.042},
                             Row{0.05, 120, 1.979930405, 1.98}, Row{0.01, 10, 3.169272667, 3.169},
                             Row{0.01, 30, 2.749995654, 2.75}, Row{0.1, 20, 1.724718243, 1.725});
    const double t = t_critical(row.df, 1 - row.alpha);
    CHECK(t == Approx(row.computed).epsilon(1e-8));
    CHECK(t == Approx(row.printed).margin(0.0005001));
}

TEST_CASE("t critical values refuse what cannot be") {
    CHECK_THROWS_AS(t_critical(0), std::invalid_argument);
    CHECK_THROWS_AS(t_critical(5, 0), std::invalid_argument);
    CHECK_THROWS_AS(t_critical(5, 1), std::invalid_argument);
}
