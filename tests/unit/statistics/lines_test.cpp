#include "statistics/lines.h"

#include <random>

#include "catch.h"
#include "nist_data.h"
#include "statistics/least_squares.h"

using namespace loafmark::statistics;

namespace {

std::vector<Point> norris_points() {
    std::vector<Point> points;
    for (std::size_t i = 0; i < nist::norris::x.size(); ++i)
        points.push_back({nist::norris::x[i], nist::norris::y[i]});
    return points;
}

std::vector<std::vector<Point>> random_groups(unsigned seed) {
    std::mt19937 random(seed);
    std::uniform_real_distribution<double> water(55, 90);
    std::normal_distribution<double> noise(0, 0.03);
    std::vector<std::vector<Point>> groups(3 + seed % 3);
    for (std::size_t g = 0; g < groups.size(); ++g)
        for (std::size_t i = 0; i < 2 + g * 3; ++i) {
            const double x = water(random);
            groups[g].push_back({x, 0.1 * static_cast<double>(g) + 0.01 * x + noise(random)});
        }
    return groups;
}

// The same model written out: a column of ones and noughts a group, and one of x.
LeastSquaresFit by_indicator_columns(const std::vector<std::vector<Point>>& groups) {
    std::vector<std::vector<double>> columns(groups.size() + 1);
    std::vector<double> y;
    for (std::size_t g = 0; g < groups.size(); ++g)
        for (const Point& p : groups[g]) {
            for (std::size_t k = 0; k < groups.size(); ++k)
                columns[k].push_back(k == g ? 1 : 0);
            columns.back().push_back(p.x);
            y.push_back(p.y);
        }
    return least_squares(columns, y).value();
}

void check_same(const Coefficient& a, const Coefficient& b) {
    CHECK(a.value == Approx(b.value).epsilon(1e-9));
    REQUIRE(a.standard_error);
    CHECK(*a.standard_error == Approx(b.standard_error.value()).epsilon(1e-9));
    REQUIRE(a.interval);
    CHECK(a.interval->low == Approx(b.interval.value().low).epsilon(1e-9));
    CHECK(a.interval->high == Approx(b.interval.value().high).epsilon(1e-9));
}

}  // namespace

TEST_CASE("a single line agrees with the certified values of Norris") {
    const auto line = fit_line(norris_points());
    REQUIRE(line);
    const nist::Certified& certified = nist::norris::certified;
    CHECK(line->slope.value == Approx(certified.coefficients[1]).epsilon(1e-11));
    CHECK(*line->slope.standard_error == Approx(certified.standard_errors[1]).epsilon(1e-10));
    CHECK(line->intercepts[0].value == Approx(certified.coefficients[0]).epsilon(1e-9));
    CHECK(*line->intercepts[0].standard_error ==
          Approx(certified.standard_errors[0]).epsilon(1e-10));
    CHECK(*line->residual_sd == Approx(certified.residual_sd).epsilon(1e-10));
    CHECK(line->degrees_of_freedom == 34);
}

TEST_CASE("parallel lines agree with the same model written out in indicator columns") {
    const unsigned seed = GENERATE(range(1u, 11u));
    const auto groups = random_groups(seed);
    const auto lines = fit_parallel_lines(groups);
    REQUIRE(lines);
    const LeastSquaresFit written_out = by_indicator_columns(groups);
    CHECK(lines->degrees_of_freedom == written_out.degrees_of_freedom);
    CHECK(*lines->residual_sd == Approx(*written_out.residual_sd).epsilon(1e-9));
    check_same(lines->slope, written_out.coefficients.back());
    for (std::size_t g = 0; g < groups.size(); ++g) {
        check_same(lines->intercepts[g], written_out.coefficients[g]);
        std::vector<double> row(groups.size() + 1, 0.0);
        row[g] = 1;
        row.back() = 71;
        const FittedPoint at_71 = lines->trace(g, 71, 80, 2).front();
        REQUIRE(at_71.interval);
        CHECK((at_71.interval->high - at_71.interval->low) / 2 ==
              Approx(t_critical(lines->degrees_of_freedom) * *written_out.standard_error_at(row))
                  .epsilon(1e-9));
    }
}

TEST_CASE("groups at different heights do not tilt the common slope") {
    // Within each group y rises by 1 per x, while the second group lies lower and further right.
    const auto lines =
        fit_parallel_lines({{{0, 10}, {1, 11}, {2, 12}}, {{10, 0}, {11, 1}, {12, 2}}});
    REQUIRE(lines);
    CHECK(lines->slope.value == Approx(1));
    CHECK(lines->intercepts[0].value == Approx(10));
    CHECK(lines->intercepts[1].value == Approx(-10));
    CHECK(*lines->residual_sd == Approx(0).margin(1e-12));
}

TEST_CASE("a group of one point leaves slope and error as they are") {
    const std::vector<Point> three = {{60, 0.2}, {65, 0.3}, {70, 0.33}, {75, 0.41}};
    const auto alone = fit_parallel_lines({three});
    const auto with_one = fit_parallel_lines({three, {{80, 0.1}}});
    REQUIRE(alone);
    REQUIRE(with_one);
    CHECK(with_one->slope.value == Approx(alone->slope.value));
    CHECK(*with_one->slope.standard_error == Approx(*alone->slope.standard_error));
    CHECK(with_one->degrees_of_freedom == alone->degrees_of_freedom);
    CHECK(with_one->trace(1, 80, 81, 2)[0].y == Approx(0.1));
}

TEST_CASE("lines need two different x in some group") {
    CHECK_FALSE(fit_line({}));
    CHECK_FALSE(fit_line(std::vector<Point>{{70, 1}}));
    CHECK_FALSE(fit_line(std::vector<Point>{{70, 1}, {70, 2}, {70 + 1e-9, 3}}));
    CHECK_FALSE(fit_parallel_lines({{{60, 1}}, {{70, 2}}}));
}

TEST_CASE("no interval is given below two degrees of freedom") {
    const auto two = fit_line(std::vector<Point>{{60, 1}, {70, 2}});
    REQUIRE(two);
    CHECK(two->slope.value == Approx(0.1));
    CHECK_FALSE(two->slope.standard_error);
    const auto three = fit_line(std::vector<Point>{{60, 1}, {70, 2}, {80, 2.5}});
    CHECK(three->slope.standard_error);
    CHECK_FALSE(three->slope.interval);
    const auto four = fit_line(std::vector<Point>{{60, 1}, {70, 2}, {80, 2.5}, {85, 3}});
    CHECK(four->slope.interval);
}

TEST_CASE("lines refuse empty groups and points that are not finite") {
    CHECK_THROWS_AS(fit_parallel_lines({{}}), std::invalid_argument);
    CHECK_THROWS_AS(fit_line(std::vector<Point>{{0, 1}, {NAN, 2}}), std::invalid_argument);
}
