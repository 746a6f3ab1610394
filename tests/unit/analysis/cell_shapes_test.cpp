#include "cell_shapes.h"

#include <numbers>

#include "catch.h"
#include "drawn_face.h"

namespace loafmark::analysis {
namespace {

constexpr double degree = std::numbers::pi / 180;

TEST_CASE("an ellipse's axis ratio and direction are those it was drawn with") {
    for (const double turn : {0.0, 30.0, 60.0, 90.0, 135.0}) {
        CAPTURE(turn);
        const drawn::Face face = drawn::Face(20, 20).ellipse(10, 10, 12, 6, turn * degree);
        const auto shapes = cell_shapes(face.cells(), face.frame());
        REQUIRE(shapes);
        CHECK(shapes->axis_ratio == Approx(2).epsilon(0.01));
        REQUIRE(shapes->direction);
        CHECK(shapes->direction->degrees == Approx(turn).margin(0.5));
        CHECK(shapes->direction->strength == Approx(1));
    }
}

TEST_CASE("a loaf that leans in its frame has its directions from its own base line") {
    const drawn::Face face = drawn::Face(20, 20).ellipse(10, 10, 12, 6, 40 * degree);
    BaseFrame frame = face.frame();
    frame.along = {std::cos(10 * degree), -std::sin(10 * degree)};  // y runs down
    frame.up = {frame.along.y, -frame.along.x};
    const auto shapes = cell_shapes(face.cells(), frame);
    REQUIRE((shapes && shapes->direction));
    CHECK(shapes->direction->degrees == Approx(30).margin(0.5));
}

TEST_CASE("directions are doubled: 170 and 10 degrees lie along the base, square ones cancel") {
    drawn::Face near = drawn::Face(40, 20);
    near.ellipse(10, 10, 8, 4, 10 * degree).ellipse(30, 10, 8, 4, 170 * degree);
    const auto along = cell_shapes(near.cells(), near.frame());
    REQUIRE((along && along->direction));
    const double off = along->direction->degrees;
    CHECK(std::min(off, 180 - off) == Approx(0).margin(0.5));
    CHECK(along->direction->strength == Approx(std::cos(20 * degree)).epsilon(0.01));

    drawn::Face square = drawn::Face(40, 20);
    square.ellipse(10, 10, 8, 4).ellipse(30, 10, 8, 4, 90 * degree);
    const auto none = cell_shapes(square.cells(), square.frame());
    REQUIRE((none && none->direction));
    CHECK(none->direction->strength == Approx(0).margin(0.01));
}

TEST_CASE("axis ratios are weighted by area, and round cells have no direction") {
    drawn::Face face = drawn::Face(40, 20);
    face.disc(10, 10, 10).ellipse(30, 10, 8, 4);  // areas as 100 to 32
    const auto shapes = cell_shapes(face.cells(), face.frame());
    REQUIRE((shapes && shapes->direction));
    CHECK(shapes->axis_ratio == Approx((100 * 1 + 32 * 2) / 132.0).epsilon(0.01));
    CHECK(shapes->direction->strength == Approx(1).epsilon(0.01));
    const drawn::Face round = drawn::Face(20, 20).disc(10, 10, 8);
    CHECK_FALSE(cell_shapes(round.cells(), round.frame())->direction);
    const drawn::Face empty(20, 20);
    CHECK_FALSE(cell_shapes(empty.cells(), empty.frame()));
}

}  // namespace
}  // namespace loafmark::analysis
