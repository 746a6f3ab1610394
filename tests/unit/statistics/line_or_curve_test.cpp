#include "statistics/line_or_curve.h"

#include <cmath>
#include <vector>

#include "catch.h"
#include "statistics/prediction.h"
#include "statistics/ratio.h"

using namespace loafmark::statistics;

namespace {

// A straight line with a disturbance orthogonal to line and bend.
const std::vector<Point> straight{{60, 10.1}, {64, 11.8}, {68, 14.2}, {72, 16.0}, {76, 17.9}};
// Peaks at 72.07, Fieller's interval 71.34 to 73.01 (worked with SciPy elsewhere in these tests).
const std::vector<Point> bent{{60, 3.02}, {60, 3.1},  {64, 3.35}, {64, 3.29},
                              {68, 3.58}, {68, 3.49}, {72, 3.66}, {72, 3.71},
                              {76, 3.6},  {76, 3.55}, {80, 3.31}, {80, 3.4}};

}  // namespace

TEST_CASE("a parabola is taken only where the points bend beyond chance") {
    CHECK_FALSE(fit_line_or_curve(straight)->bends());
    CHECK(fit_line_or_curve(bent)->bends());
    CHECK(goes_anywhere(*fit_line_or_curve(straight)));
    const std::vector<Point> flat{{1, 5}, {2, 6}, {3, 5.2}, {4, 5.8}};
    CHECK_FALSE(goes_anywhere(*fit_line_or_curve(flat)));
}

TEST_CASE("too few points, one x or no scatter give nothing") {
    CHECK_FALSE(fit_line_or_curve({}));
    CHECK_FALSE(fit_line_or_curve(std::vector<Point>{{1, 2}, {2, 3}, {3, 5}}));
    CHECK_FALSE(fit_line_or_curve(std::vector<Point>{{1, 2}, {1, 3}, {1, 5}, {1, 4}}));
    CHECK_FALSE(fit_line_or_curve(std::vector<Point>{{1, 2}, {2, 4}, {3, 6}, {4, 8}}));
}

TEST_CASE("on a straight line the nearest place has Fieller's interval") {
    const auto line = fit_line_or_curve(straight);
    const Nearest nearest = nearest_to(*line, 15, 0, 58, 78);
    CHECK(nearest.reached);
    // x = (15 - a) / b in centred x, by the closed form of ratio.h.
    const auto& fit = line->fit;
    const double variance = *fit.residual_sd * *fit.residual_sd;
    const auto ratio =
        fieller({15 - fit.coefficients[0].value, fit.coefficients[1].value,
                 variance * fit.unscaled_covariance[0], variance * fit.unscaled_covariance[3],
                 -variance * fit.unscaled_covariance[1]},
                line->t());
    CHECK(nearest.x == Approx(ratio->value + 68));
    CHECK(*nearest.low == Approx(ratio->interval->low + 68));
    CHECK(*nearest.high == Approx(ratio->interval->high + 68));
}

TEST_CASE("a wanted value that is a mean of n itself widens the interval by its own variance") {
    const auto line = fit_line_or_curve(straight);
    const auto& fit = line->fit;
    const double variance = *fit.residual_sd * *fit.residual_sd;
    for (const int n : {1, 4}) {
        const auto ratio =
            fieller({15 - fit.coefficients[0].value, fit.coefficients[1].value,
                     variance * (fit.unscaled_covariance[0] + 1.0 / n),
                     variance * fit.unscaled_covariance[3], -variance * fit.unscaled_covariance[1]},
                    line->t());
        const Nearest nearest = nearest_to(*line, 15, n, 58, 78);
        CHECK(*nearest.low == Approx(ratio->interval->low + 68));
        CHECK(*nearest.high == Approx(ratio->interval->high + 68));
    }
}

TEST_CASE("what the curve never reaches is nearest at its peak, and is still off by something") {
    const auto curve = fit_line_or_curve(bent);
    const Nearest nearest = nearest_to(*curve, 4.5, 3, 58, 82);
    CHECK_FALSE(nearest.reached);
    CHECK(nearest.x == Approx(72.067).margin(0.01));
    // The fitted peak is 3.632018552 (SciPy).
    CHECK(nearest.off == Approx(3.632018552 - 4.5).margin(1e-6));
    CHECK(nearest.off_interval.high < 0);
    CHECK_FALSE(nearest.low);
    CHECK_FALSE(nearest.high);
}

TEST_CASE("of two places that reach it the lower is named") {
    const auto curve = fit_line_or_curve(bent);
    const Nearest nearest = nearest_to(*curve, 3.45, 0, 58, 82);
    CHECK(nearest.reached);
    CHECK(nearest.x < 72);
    CHECK(curve->value(curve->row(nearest.x)) == Approx(3.45));
    CHECK(*nearest.low < nearest.x);
    CHECK(*nearest.high > nearest.x);
    CHECK(*nearest.high < 72);
}

TEST_CASE("what keeps a share of the start ends where the one-sided bound does") {
    const std::vector<Point> blends{{0, 100.4}, {0, 99.6},  {20, 96.3},
                                    {20, 95.7}, {40, 92.2}, {40, 91.8}};
    const auto line = fit_line_or_curve(blends);
    const double end = keeps_up_to(*line, 0.9, 0, 60);
    // By hand, in centred x: d(x) = f(x) - 0.9 f(0) and its error.
    const auto& fit = line->fit;
    const double s = *fit.residual_sd;
    const auto bound = [&](double x) {
        const double d =
            0.1 * fit.coefficients[0].value + (x - 20 - 0.9 * -20) * fit.coefficients[1].value;
        const double error = s * std::sqrt(0.01 / 6 + (x - 2) * (x - 2) / 1600);
        return d - 2.131846786 * error;  // t(0.95, 4), printed tables 2.132
    };
    CHECK(bound(end) == Approx(0).margin(1e-6));
    CHECK(bound(end - 1) > 0);
    CHECK(keeps_up_to(*line, 0.9, 0, 30) == 30);
    CHECK(keeps_up_to(*line, 1.1, 0, 30) == 0);
}

// Specific volume over the share of the weaker wheat, J Food Sci Technol 57 (2020) 3581, table 4,
// flours HRS2 and HRS4; the places worked apart from the normal equations in plain Python.
TEST_CASE("published blends keep 90 % of the stronger flour's volume up to a share") {
    const std::vector<Point> bends{{0, 7.9},  {60, 7.1}, {70, 6.7},
                                   {80, 6.3}, {90, 5.8}, {100, 4.7}};
    const auto curve = fit_line_or_curve(bends);
    CHECK(curve->bends());
    CHECK(keeps_up_to(*curve, 0.9, 0, 100) == Approx(49.825120312).epsilon(1e-8));
    const std::vector<Point> straight_on{{0, 7.5},  {60, 6.1}, {70, 6.2},
                                         {80, 5.7}, {90, 5.4}, {100, 4.7}};
    const auto line = fit_line_or_curve(straight_on);
    CHECK_FALSE(line->bends());
    CHECK(keeps_up_to(*line, 0.9, 0, 100) == Approx(24.661284301).epsilon(1e-8));
}

TEST_CASE("a prediction interval is mean -+ t s sqrt(1/n + 1/m)") {
    const std::vector<double> five{49.2, 51.6, 48.9, 49.3, 51.5};
    const auto expected = prediction_interval(five, 1);
    double mean = 0;
    for (const double value : five)
        mean += value / 5;
    double squares = 0;
    for (const double value : five)
        squares += (value - mean) * (value - mean);
    const double half = 2.776445105 * std::sqrt(squares / 4) * std::sqrt(1.2);  // t(0.975, 4)
    CHECK(expected->low == Approx(mean - half));
    CHECK(expected->high == Approx(mean + half));
    CHECK(prediction_interval(five, 4)->high - mean ==
          Approx(half * std::sqrt(0.2 + 0.25) / std::sqrt(1.2)));
    CHECK_FALSE(prediction_interval(std::vector<double>{1, 2, 3}, 1));
    CHECK_THROWS_AS(prediction_interval(five, 0), std::invalid_argument);
}
