#include "side_pinch.h"

#include <cmath>
#include <numbers>

#include "catch.h"
#include "made_bread.h"

namespace loafmark::analysis {
namespace {

const BaseLine flat{{-60, 0}, {60, 0}, 0};

// A tin loaf 100 wide and 80 high whose sides are drawn in by `dent` at half height, as a cosine.
Polyline caved_loaf(double dent, double dent_right) {
    Polyline loaf;
    const auto inward = [](double y, double most) {
        return most * (1 + std::cos(std::numbers::pi * (y + 40) / 40)) / 2;
    };
    for (double y = 0; y > -80; y -= 0.5)
        loaf.emplace_back(-50 + inward(y, dent), y);
    for (double x = -50; x < 50; x += 0.5)
        loaf.emplace_back(x, -80);
    for (double y = -80; y < 0; y += 0.5)
        loaf.emplace_back(50 - inward(y, dent_right), y);
    for (double x = 50; x > -50; x -= 0.5)
        loaf.emplace_back(x, 0);
    return loaf;
}

TEST_CASE("sides that bulge or stand straight have no waist") {
    CHECK(side_pinch(made::dome(100, 50), flat) == Approx(0).margin(0.2));
    CHECK(side_pinch(made::tin_loaf(100, 90), flat) == Approx(0).margin(0.2));
    CHECK(side_pinch(caved_loaf(0, 0), flat) == Approx(0).margin(0.01));
}

TEST_CASE("the waist is the deeper of both sides' dents") {
    CHECK(side_pinch(caved_loaf(4, 0), flat) == Approx(4).margin(0.1));
    CHECK(side_pinch(caved_loaf(3, 7), flat) == Approx(7).margin(0.1));
}

TEST_CASE("the waist does not depend on how the slice lies") {
    const Polyline turned = made::placed(caved_loaf(3, 7), {20, 30}, 25);
    const double a = 25 * std::numbers::pi / 180;
    const cv::Point2d along(std::cos(a), std::sin(a)), origin(20, 30);
    CHECK(side_pinch(turned, {origin - 60 * along, origin + 60 * along, 0}) ==
          Approx(7).margin(0.15));
}

TEST_CASE("a notch beside an ear is no waist") {
    Polyline loaf = made::dome(120, 60);
    for (cv::Point2d& p : loaf)
        if (p.x > 5 && p.x < 15) p.y += 6;
    CHECK(side_pinch(loaf, flat) == Approx(0).margin(0.3));
}

}  // namespace
}  // namespace loafmark::analysis
