// Tests of ratio.cpp and curve.cpp: where a parabola peaks is Fieller's ratio of its coefficients.
#include <cmath>
#include <numeric>

#include "catch.h"
#include "published_data.h"
#include "statistics/curve.h"
#include "statistics/ratio.h"

using namespace loafmark::statistics;

namespace {

std::vector<Point> points_of(const std::vector<double>& x, const std::vector<double>& y) {
    std::vector<Point> points;
    for (std::size_t i = 0; i < x.size(); ++i)
        points.push_back({x[i], y[i]});
    return points;
}

}  // namespace

TEST_CASE("a well determined peak has Fieller's interval") {
    // Made-up doughs, 60 to 80 % water, twice each; computed with SciPy.
    const auto curve = fit_curve(
        {points_of({60, 60, 64, 64, 68, 68, 72, 72, 76, 76, 80, 80},
                   {3.02, 3.1, 3.35, 3.29, 3.58, 3.49, 3.66, 3.71, 3.6, 3.55, 3.31, 3.4})});
    REQUIRE(curve);
    CHECK(curve->bend().value == Approx(-0.004129464285714474).epsilon(1e-9));
    CHECK(*curve->bend().standard_error == Approx(0.00041065766949322955).epsilon(1e-9));
    const auto peak = curve->turning_point();
    REQUIRE(peak);
    CHECK(peak->value == Approx(72.06702702702636).epsilon(1e-9));
    REQUIRE(peak->interval);
    CHECK(peak->interval->low == Approx(71.34368371635142).epsilon(1e-8));
    CHECK(peak->interval->high == Approx(73.01073833051831).epsilon(1e-8));
    CHECK(peak->g == Approx(0.0506078626382833).epsilon(1e-7));
    const FittedPoint top = curve->at(0, peak->value);
    CHECK(top.y == Approx(3.632018552123835).epsilon(1e-9));
    CHECK(top.interval->low == Approx(3.576778020832432).epsilon(1e-8));
}

TEST_CASE("a peak that the doughs do not show has no interval") {
    // Made up; computed with SciPy: g = 37.8, the set is unbounded.
    const auto curve =
        fit_curve({points_of({60, 64, 68, 72, 76, 80}, {3.3, 3.52, 3.31, 3.66, 3.35, 3.49})});
    REQUIRE(curve);
    const auto peak = curve->turning_point();
    REQUIRE(peak);
    CHECK(peak->value == Approx(73.1599999999935).epsilon(1e-8));
    CHECK(peak->g == Approx(37.81781939078551).epsilon(1e-6));
    CHECK_FALSE(peak->interval);
}

TEST_CASE("parallel parabolas through Larmour's flours peak at two milligrams of bromate") {
    // Larmour 1941, the 17 flours as blocks; computed with SciPy and R.
    std::vector<std::vector<Point>> flours;
    for (const std::vector<double>& row : loaf_volume)
        flours.push_back(points_of({0, 1, 2, 3, 4}, row));
    const auto curve = fit_curve(flours);
    REQUIRE(curve);
    CHECK(curve->fit.degrees_of_freedom == 66);
    CHECK(curve->bend().value == Approx(-20.651260504201865).epsilon(1e-9));
    CHECK(*curve->fit.residual_sd == Approx(43.45610021372817).epsilon(1e-9));
    const auto peak = curve->turning_point();
    CHECK(peak->value == Approx(1.987894201424217).epsilon(1e-9));
    CHECK(peak->interval->low == Approx(1.81944389561629).epsilon(1e-8));
    CHECK(peak->interval->high == Approx(2.1544050159306876).epsilon(1e-8));
}

TEST_CASE("too few places for a parabola give none") {
    CHECK_FALSE(fit_curve({points_of({60, 60, 70, 70}, {1, 2, 3, 4})}));
    const auto exact = fit_curve({points_of({60, 65, 70}, {1, 2, 1})});
    REQUIRE(exact);
    CHECK_FALSE(exact->turning_point());
    CHECK_FALSE(exact->at(0, 65).interval);
    CHECK_THROWS_AS(fit_curve({}), std::invalid_argument);
}

TEST_CASE("a ratio's interval shrinks to the ratio as its parts become certain") {
    const auto ratio = fieller({10, 5, 1e-12, 1e-12, 0}, 2);
    REQUIRE(ratio);
    CHECK(ratio->value == 2);
    CHECK(ratio->interval->low == Approx(2).epsilon(1e-5));
    CHECK_FALSE(fieller({1, 0, 1, 1, 0}, 2));
    CHECK_THROWS_AS(fieller({1, 1, -1, 1, 0}, 2), std::invalid_argument);
}
