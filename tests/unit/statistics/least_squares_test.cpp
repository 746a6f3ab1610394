#include "statistics/least_squares.h"

#include <cmath>
#include <limits>

#include "catch.h"
#include "nist_data.h"

using namespace loafmark::statistics;

namespace {

std::vector<double> ones(std::size_t n) {
    return std::vector<double>(n, 1.0);
}

void check_fit(const std::optional<LeastSquaresFit>& fit, const nist::Certified& certified,
               double tolerance) {
    REQUIRE(fit);
    REQUIRE(fit->coefficients.size() == certified.coefficients.size());
    for (std::size_t i = 0; i < certified.coefficients.size(); ++i) {
        CHECK(fit->coefficients[i].value ==
              Approx(certified.coefficients[i]).epsilon(tolerance).margin(0));
        REQUIRE(fit->coefficients[i].standard_error);
        CHECK(*fit->coefficients[i].standard_error ==
              Approx(certified.standard_errors[i]).epsilon(tolerance).margin(0));
    }
    CHECK(fit->degrees_of_freedom == certified.degrees_of_freedom);
    REQUIRE(fit->residual_sd);
    CHECK(*fit->residual_sd == Approx(certified.residual_sd).epsilon(tolerance).margin(0));
    CHECK(fit->residual_sum_of_squares ==
          Approx(certified.residual_sum_of_squares).epsilon(tolerance).margin(0));
}

}  // namespace

TEST_CASE("the Norris line agrees with its certified values") {
    const auto& y = nist::norris::y;
    check_fit(least_squares({ones(y.size()), nist::norris::x}, y), nist::norris::certified, 1e-10);
}

TEST_CASE("the Pontius parabola agrees with its certified values") {
    const auto& y = nist::pontius::y;
    std::vector<double> square;
    for (const double x : nist::pontius::x)
        square.push_back(x * x);
    check_fit(least_squares({ones(y.size()), nist::pontius::x, square}, y),
              nist::pontius::certified, 1e-8);
}

TEST_CASE("the NoInt1 line through the origin agrees with its certified values") {
    check_fit(least_squares({nist::noint1::x}, nist::noint1::y), nist::noint1::certified, 1e-10);
}

TEST_CASE("the Longley regression agrees with its certified values") {
    std::vector<std::vector<double>> columns = {ones(nist::longley::y.size())};
    columns.insert(columns.end(), nist::longley::x.begin(), nist::longley::x.end());
    check_fit(least_squares(columns, nist::longley::y), nist::longley::certified, 1e-7);
}

TEST_CASE("an interval is the coefficient and t standard errors to either side") {
    const auto fit = least_squares({ones(36), nist::norris::x}, nist::norris::y);
    REQUIRE(fit);
    const Coefficient& slope = fit->coefficients[1];
    REQUIRE(slope.interval);
    const double half = t_critical(34) * nist::norris::certified.standard_errors[1];
    CHECK(slope.interval->low == Approx(1.00211681802045 - half).epsilon(1e-12));
    CHECK(slope.interval->high == Approx(1.00211681802045 + half).epsilon(1e-12));
}

TEST_CASE("the error of a fitted mean follows from the covariance") {
    // At the origin the fitted mean is the intercept.
    const auto fit = least_squares({ones(36), nist::norris::x}, nist::norris::y);
    REQUIRE(fit);
    const std::vector<double> origin = {1, 0};
    CHECK(*fit->standard_error_at(origin) == Approx(0.232818234301152).epsilon(1e-10));
}

TEST_CASE("dependent columns and too few observations give no fit") {
    CHECK_FALSE(least_squares({{1, 1, 1}, {2, 2, 2}}, std::vector<double>{1, 2, 3}));
    CHECK_FALSE(least_squares({{0, 0, 0}}, std::vector<double>{1, 2, 3}));
    CHECK_FALSE(least_squares({{1}, {2}}, std::vector<double>{1}));
}

TEST_CASE("with no degree of freedom there is a fit and no error") {
    const auto fit = least_squares({{1, 1}, {0, 1}}, std::vector<double>{3, 5});
    REQUIRE(fit);
    CHECK(fit->coefficients[1].value == Approx(2));
    CHECK(fit->degrees_of_freedom == 0);
    CHECK_FALSE(fit->residual_sd);
    CHECK_FALSE(fit->coefficients[1].standard_error);
    CHECK_FALSE(fit->coefficients[1].interval);
}

TEST_CASE("with one degree of freedom there is an error and no interval") {
    const auto fit = least_squares({{1, 1, 1}, {0, 1, 2}}, std::vector<double>{0, 2, 1});
    REQUIRE(fit);
    CHECK(fit->degrees_of_freedom == 1);
    CHECK(fit->coefficients[1].standard_error);
    CHECK_FALSE(fit->coefficients[1].interval);
}

TEST_CASE("least squares refuses what is not a set of equations") {
    const std::vector<double> y = {1, 2};
    CHECK_THROWS_AS(least_squares({}, y), std::invalid_argument);
    CHECK_THROWS_AS(least_squares({{1, 2, 3}}, y), std::invalid_argument);
    CHECK_THROWS_AS(least_squares({{1, std::nan("")}}, y), std::invalid_argument);
    CHECK_THROWS_AS(
        least_squares({{1, 2}}, std::vector<double>{1, std::numeric_limits<double>::infinity()}),
        std::invalid_argument);
}
