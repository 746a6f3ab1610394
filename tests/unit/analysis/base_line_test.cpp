#include "base_line.h"

#include <cmath>
#include <numbers>

#include "catch.h"
#include "made_bread.h"

namespace loafmark::analysis {
namespace {

TEST_CASE("the base line runs along the base, its ends beneath the outline's widest points") {
    for (const double turn : {-4.0, 0.0, 3.0}) {
        CAPTURE(turn);
        const Polyline loaf = made::placed(made::tin_loaf(100, 80), {60, 90}, turn);
        const BaseLine base = base_line(loaf, 0.6);
        const double slope = (base.right.y - base.left.y) / (base.right.x - base.left.x);
        CHECK(slope == Approx(std::tan(turn * std::numbers::pi / 180)).margin(2e-4));
        CHECK((base.left.y + base.right.y) / 2 == Approx(90).margin(0.6));
        CHECK(base.right.x - base.left.x >= 100 * std::cos(turn * std::numbers::pi / 180) - 0.1);
        CHECK(base.scatter < 0.01);
    }
}

TEST_CASE("a notch in the base does not tilt its line") {
    Polyline loaf = made::tin_loaf(100, 80);
    for (cv::Point2d& p : loaf)
        if (p.y > -0.1 && p.x > 12 && p.x < 24) p.y = -3;
    const BaseLine base = base_line(loaf, 0.6);
    CHECK(base.left.y == Approx(0).margin(0.02));
    CHECK(base.right.y == Approx(0).margin(0.02));
}

TEST_CASE("a cell open to the base, as wide as a quarter of it, does not tilt its line") {
    Polyline loaf = made::tin_loaf(108, 112);
    for (cv::Point2d& p : loaf)
        if (p.y > -0.1 && p.x > 10 && p.x < 25) p.y = -6;
    const BaseLine base = base_line(loaf, 0.6);
    CHECK(base.left.y == Approx(0).margin(0.02));
    CHECK(base.right.y == Approx(0).margin(0.02));
    CHECK(base.scatter < 0.02);
}

TEST_CASE("round corners and what hangs over them leave the base line in place") {
    Polyline loaf = made::tin_loaf(100, 80);
    for (cv::Point2d& p : loaf)
        if (p.y > -5 && std::abs(p.x) > 45) p.y -= (std::abs(p.x) - 45) / 2;
    const BaseLine base = base_line(loaf, 0.6);
    CHECK(base.left.y == Approx(0).margin(0.02));
    CHECK(base.right.y == Approx(0).margin(0.02));
}

TEST_CASE("a bumpy base tells its scatter") {
    Polyline loaf;
    for (const cv::Point2d& p : made::tin_loaf(100, 80)) {
        const double bump = p.y > -0.1 ? 0.3 * std::sin(p.x) : 0;
        loaf.emplace_back(p.x, p.y + bump);
    }
    const BaseLine base = base_line(loaf, 0.6);
    CHECK(base.scatter == Approx(0.3 / std::sqrt(2.0)).epsilon(0.1));
    CHECK(base.left.y == Approx(base.right.y).margin(0.1));
}

}  // namespace
}  // namespace loafmark::analysis
