#include "plane.h"

#include "catch.h"

using namespace loafmark;
using namespace loafmark::accuracy;

namespace {

std::vector<PlanePoint> square(double left, double top, double side) {
    return {{left, top}, {left + side, top}, {left + side, top + side}, {left, top + side}};
}

}  // namespace

TEST_CASE("overlap of squares is that of their areas") {
    CHECK(overlap(square(0, 0, 10), square(0, 0, 10), 0.1) == Approx(1));
    CHECK(overlap(square(0, 0, 10), square(5, 0, 10), 0.1) == Approx(50.0 / 150));
    CHECK(overlap(square(0, 0, 10), square(2, 2, 6), 0.1) == Approx(36.0 / 100).epsilon(0.02));
    CHECK(overlap(square(0, 0, 10), square(20, 0, 10), 0.1) == 0);
    CHECK(overlap({}, {}, 0.1) == 0);
}

TEST_CASE("a polygon with a notch is crossed four times") {
    const std::vector<PlanePoint> notched{{0, 0}, {4, 0},  {4, 10},  {6, 10},
                                          {6, 0}, {10, 0}, {10, 20}, {0, 20}};
    CHECK(crossings(notched, 5) == std::vector<double>{0, 4, 6, 10});
    CHECK(crossings(notched, 15) == std::vector<double>{0, 10});
}

TEST_CASE("a homography and its inverse undo each other") {
    const Homography h{{{2, 0.1, 5}, {-0.2, 1.8, 7}, {1e-3, 2e-3, 1}}};
    const PlanePoint there = mapped(h, 3, 4), back = mapped(inverse(h), there.x, there.y);
    CHECK(back.x == Approx(3));
    CHECK(back.y == Approx(4));
    const PlanePoint same = mapped(product(inverse(h), h), 8, -2);
    CHECK(same.x == Approx(8));
    CHECK(same.y == Approx(-2));
}
