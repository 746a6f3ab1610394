#include "bands.h"

#include "catch.h"
#include "drawn_face.h"

namespace loafmark::analysis {
namespace {

TEST_CASE("the profile has each band's own openness, from the base up") {
    drawn::Face face(50, 40);  // bands of 4 mm
    for (int band = 0; band < 10; ++band)
        if (band > 0) face.box(1, 4 * band + 1, 5.0 * band, 2);  // 2 * 5 band of 200 mm2
    const OpennessProfile profile = openness_profile(face.cells(), face.frame());
    for (std::size_t band = 0; band < 10; ++band) {
        CAPTURE(band);
        REQUIRE(profile[band]);
        CHECK(*profile[band] == Approx(0.05 * static_cast<double>(band)).margin(1e-6));
    }
}

TEST_CASE("a band without crumb has no openness, a loaf of unknown height no profile") {
    drawn::Face face = drawn::Face(50, 40).disc(25, 20, 4);
    face.without(0, 36, 50, 4);
    const OpennessProfile profile = openness_profile(face.cells(), face.frame());
    CHECK_FALSE(profile[9]);
    CHECK(profile[8]);
    BaseFrame cut = face.frame();
    cut.height = 0;
    CHECK_FALSE(openness_profile(face.cells(), cut)[4]);
    CHECK_FALSE(dense_base(face.cells(), cut));
}

TEST_CASE("the dense base reaches up to the first band of half the usual openness") {
    drawn::Face face(50, 40);
    for (int row = 7; row < 40; ++row)  // a quarter open, from 7 mm up
        for (int i = 0; i < 12; ++i)
            face.box(4 * i + 1, row, 1, 1);
    CHECK(*dense_base(face.cells(), face.frame()) == Approx(7));

    drawn::Face even(50, 40);
    for (int row = 0; row < 40; ++row)
        for (int i = 0; i < 12; ++i)
            even.box(4 * i + 1, row, 1, 1);
    CHECK(*dense_base(even.cells(), even.frame()) == 0);
    // Crust below the crumb is no layer of it.
    CHECK(*dense_base(even.without(0, 0, 50, 5).cells(), even.frame()) == 0);
    const drawn::Face solid(50, 40);
    CHECK_FALSE(dense_base(solid.cells(), solid.frame()));
}

}  // namespace
}  // namespace loafmark::analysis
