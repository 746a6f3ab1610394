#include "base_line.h"

#include <cmath>
#include <numbers>

#include "catch.h"
#include "made_bread.h"

namespace loafmark::analysis {
namespace {

double degrees_between(cv::Point2d a, cv::Point2d b) {
    return std::acos(std::clamp(a.dot(b), -1.0, 1.0)) * 180 / std::numbers::pi;
}

// The photo's down as the outline's own down, when it was turned.
cv::Point2d turned_down(double degrees) {
    const double a = degrees * std::numbers::pi / 180;
    return {-std::sin(a), std::cos(a)};
}

const cv::Point2d photo_down(0, 1);

TEST_CASE("a dome's base is found however the photo is turned") {
    for (int turn = 0; turn < 360; turn += 10) {
        CAPTURE(turn);
        const Polyline loaf = made::placed(made::dome(120, 70), {200, 200}, turn);
        CHECK(degrees_between(base_side(loaf, photo_down).direction, turned_down(turn)) <= 2);
    }
}

TEST_CASE("a tin loaf's base is found however the photo is turned") {
    for (int turn = 0; turn < 360; turn += 10) {
        CAPTURE(turn);
        const Polyline loaf = made::placed(made::tin_loaf(100, 110), {200, 200}, turn);
        CHECK(degrees_between(base_side(loaf, photo_down).direction, turned_down(turn)) <= 2);
    }
}

TEST_CASE("a base whose corners reach below its middle is found however the photo is turned") {
    Polyline loaf = made::dome(120, 70);
    for (cv::Point2d& p : loaf)
        if (p.y > -4) p.y += std::abs(p.x) > 48 ? 4 : 0;  // two feet of 4 mm
    for (int turn = 0; turn < 360; turn += 10) {
        CAPTURE(turn);
        const Polyline turned = made::placed(loaf, {200, 200}, turn);
        CHECK(degrees_between(base_side(turned, photo_down).direction, turned_down(turn)) <= 2);
    }
}

TEST_CASE("of a square's sides the one nearest the photo's lower edge is the base") {
    const Polyline square = {{-40, -40}, {40, -40}, {40, 40}, {-40, 40}};
    for (int turn = -40; turn <= 40; turn += 10) {
        CAPTURE(turn);
        const Polyline turned = made::placed(square, {0, 0}, turn);
        CHECK(degrees_between(base_side(turned, photo_down).direction, turned_down(turn)) <= 2);
    }
}

TEST_CASE("a square that lies turned by 40 degrees leaves its base in doubt, laid base down none") {
    const Polyline square = {{-40, -40}, {40, -40}, {40, 40}, {-40, 40}};
    const BaseSide turned = base_side(made::placed(square, {0, 0}, 40), photo_down);
    REQUIRE(turned.rival);
    CHECK(degrees_between(*turned.rival, turned_down(40 - 90)) <= 2);
    CHECK_FALSE(base_side(made::placed(square, {0, 0}, 5), photo_down).rival);
}

TEST_CASE("a loaf with one flat side only leaves no doubt, however it lies") {
    for (int turn = 0; turn < 360; turn += 20) {
        CAPTURE(turn);
        CHECK_FALSE(
            base_side(made::placed(made::dome(120, 70), {200, 200}, turn), photo_down).rival);
    }
}

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
