#include "wide_openings.h"

#include "catch.h"
#include "drawn_face.h"

namespace loafmark::analysis {
namespace {

TEST_CASE("crust that lifted off is told from a tunnel in the middle") {
    drawn::Face face(80, 60);
    face.box(20, 52, 30, 7).box(10, 20, 22, 3).disc(60, 30, 10);
    const WideOpenings found = wide_openings(face.cells(), face.frame());
    REQUIRE(found.under_crust);
    CHECK(found.under_crust->width == Approx(30));
    CHECK(found.under_crust->height == Approx(7));
    CHECK(found.under_crust->share_of_width == Approx(30.0 / 80));
    REQUIRE(found.elsewhere);
    CHECK(found.elsewhere->width == Approx(22));
    CHECK(found.elsewhere->height == Approx(3));
}

TEST_CASE("openings of less than a quarter of the loaf's width are neither") {
    drawn::Face face(80, 60);
    face.box(20, 52, 19, 7).box(10, 20, 19, 3);
    const WideOpenings found = wide_openings(face.cells(), face.frame());
    CHECK_FALSE(found.under_crust);
    CHECK_FALSE(found.elsewhere);
}

TEST_CASE("an opening with crumb over it is a tunnel, however high it lies") {
    const drawn::Face face = drawn::Face(80, 60).box(20, 50, 30, 6);  // 4 mm below the crust
    const WideOpenings found = wide_openings(face.cells(), face.frame());
    CHECK_FALSE(found.under_crust);
    CHECK(found.elsewhere);
}

TEST_CASE("of a loaf of unknown width nothing is said") {
    const drawn::Face face = drawn::Face(80, 60).box(20, 52, 30, 7);
    BaseFrame cut = face.frame();
    cut.width = 0;
    CHECK_FALSE(wide_openings(face.cells(), cut).under_crust);
}

}  // namespace
}  // namespace loafmark::analysis
