#include "statistics/anova.h"

#include <cmath>

#include "catch.h"
#include "published_data.h"

using namespace loafmark::statistics;

namespace {

struct Flat {
    Factor group{"group", {}};
    std::vector<double> y;
};

Flat flattened(const std::vector<std::vector<double>>& groups) {
    Flat flat;
    for (std::size_t g = 0; g < groups.size(); ++g)
        for (const double value : groups[g]) {
            flat.group.levels.push_back(static_cast<int>(g));
            flat.y.push_back(value);
        }
    return flat;
}

// Certified F, sums of squares between and within, residual SD.
void check_one_way(const std::vector<std::vector<double>>& groups, double f, double between,
                   double within, double sd, double tolerance) {
    const Flat data = flattened(groups);
    const Anova table = anova({data.group}, data.y);
    REQUIRE(table.terms.size() == 1);
    CHECK(table.terms[0].sum_of_squares == Approx(between).epsilon(tolerance).margin(0));
    CHECK(*table.terms[0].f == Approx(f).epsilon(tolerance).margin(0));
    CHECK(table.residual.sum_of_squares == Approx(within).epsilon(tolerance).margin(0));
    CHECK(std::sqrt(*table.residual.mean_square) == Approx(sd).epsilon(tolerance).margin(0));
}

}  // namespace

TEST_CASE("one-way tables agree with NIST's certified values") {
    // NIST StRD, analysis of variance: SiRstv, SmLs01, AtmWtAg (seven leading digits are common).
    check_one_way(nist_anova::si_resistivity, 1.18046237440255, 5.11462616e-02, 2.16636560e-01,
                  1.04076068334656e-01, 1e-9);
    check_one_way(nist_anova::small_least_squares, 21, 1.68, 1.8, 0.1, 1e-9);
    check_one_way(nist_anova::silver_weight, 15.9467335677930, 3.63834187500e-09,
                  1.04951729166667e-08, 1.51048314446410e-05, 1e-6);
}

TEST_CASE("the bread-rise table gives the published F and p") {
    // Lawson ch. 2; computed with R: F 4.60222222222, p 0.0420042135839.
    const Flat data = flattened(bread_rise);
    const Anova table = anova({data.group}, data.y);
    CHECK(table.terms[0].degrees_of_freedom == 2);
    CHECK(table.residual.degrees_of_freedom == 9);
    CHECK(*table.terms[0].f == Approx(4.60222222222).epsilon(1e-10));
    CHECK(*table.terms[0].p == Approx(0.0420042135839).epsilon(1e-9));
}

TEST_CASE("Larmour's flours and bromate, once each, make a two-way table") {
    // Larmour 1941, computed with R.
    const Flat data = flattened(loaf_volume);
    Factor bromate{"bromate", {}};
    for (std::size_t i = 0; i < data.y.size(); ++i)
        bromate.levels.push_back(static_cast<int>(i % 5));
    const Anova table = anova({data.group, bromate}, data.y);
    CHECK(table.terms[0].sum_of_squares == Approx(776939.411765).epsilon(1e-9));
    CHECK(table.terms[1].sum_of_squares == Approx(116537.058824).epsilon(1e-9));
    CHECK(*table.terms[1].f == Approx(17.0060463644).epsilon(1e-9));
    CHECK(*table.terms[1].p == Approx(1.51209729214e-09).epsilon(1e-6));
    CHECK(*table.residual.mean_square == Approx(1713.17095588235).epsilon(1e-9));
    CHECK(table.residual.degrees_of_freedom == 64);
}

TEST_CASE("the cake split plot tests recipes against mixes and temperatures against cakes") {
    // Cochran and Cox 1957 p. 300, computed with R aov.
    std::vector<double> y;
    Factor replicate{"replicate", {}};
    Factor recipe{"recipe", {}};
    Factor temperature{"temperature", {}};
    for (std::size_t row = 0; row < cake.size(); ++row)
        for (std::size_t t = 0; t < cake[row].size(); ++t) {
            y.push_back(cake[row][t]);
            replicate.levels.push_back(static_cast<int>(row / 3));
            recipe.levels.push_back(static_cast<int>(row % 3));
            temperature.levels.push_back(static_cast<int>(t));
        }
    REQUIRE(y.size() == 270);
    const Factor mix = crossed(replicate, recipe, "mix");
    const Anova table =
        anova({replicate, recipe, mix, temperature, crossed(recipe, temperature, "both")}, y);
    CHECK(*table.terms[0].mean_square == Approx(728.8746031746).epsilon(1e-9));
    CHECK(table.terms[2].degrees_of_freedom == 28);
    CHECK(*table.terms[2].mean_square == Approx(42.8023809524).epsilon(1e-9));
    const auto recipes = Anova::against(table.terms[1], table.terms[2]);
    REQUIRE(recipes);
    CHECK(*recipes->f == Approx(1.57805343865).epsilon(1e-9));
    CHECK(*recipes->p == Approx(0.224185670172).epsilon(1e-9));
    CHECK(*table.terms[3].f == Approx(20.5198604291).epsilon(1e-9));
    CHECK(*table.terms[4].f == Approx(1.00619798398).epsilon(1e-9));
    CHECK(*table.terms[4].p == Approx(0.439269437227).epsilon(1e-9));
    CHECK(table.residual.degrees_of_freedom == 210);
}

TEST_CASE("without repeats there is no F, and equal values have none either") {
    const Anova single = anova({{"flour", {1, 2, 3}}}, std::vector<double>{1, 2, 4});
    CHECK(single.residual.degrees_of_freedom == 0);
    CHECK_FALSE(single.terms[0].f);
    const Anova equal = anova({{"flour", {1, 1, 2, 2}}}, std::vector<double>{3, 3, 3, 3});
    CHECK_FALSE(equal.terms[0].f);
}

TEST_CASE("an analysis of variance refuses what is no table") {
    CHECK_THROWS_AS(anova({}, std::vector<double>{}), std::invalid_argument);
    CHECK_THROWS_AS(anova({{"a", {1}}}, std::vector<double>{1, 2}), std::invalid_argument);
    CHECK_THROWS_AS(anova({{"a", {1}}}, std::vector<double>{std::nan("")}), std::invalid_argument);
}
