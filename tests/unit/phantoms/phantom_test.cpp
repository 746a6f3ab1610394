#include "phantoms/phantom.h"

#include <cmath>
#include <stdexcept>

#include "catch.h"
#include "phantoms/recipes.h"
#include "phantoms/truth.h"

using namespace loafmark;
using namespace loafmark::phantoms;

namespace {

PhantomRecipe tiny_patch(std::uint32_t seed) {
    FoamRecipe foam;
    foam.seed = seed;
    PhantomRecipe recipe = patch_recipe(foam, 10, 8);
    recipe.slices[0].thickness_mm = 8;
    recipe.samples = {2, 4};
    return recipe;
}

}  // namespace

TEST_CASE("equal seeds give equal pictures and truths for any number of threads") {
    const Phantom one = make_phantom(tiny_patch(3), 1), many = make_phantom(tiny_patch(3), 3);
    CHECK(one.photo == many.photo);
    CHECK(one.slices[0].section.cells == many.slices[0].section.cells);
    CHECK(make_phantom(tiny_patch(4), 2).photo != one.photo);
}

TEST_CASE("a patch fills its frame at the stated scale") {
    const Phantom patch = make_phantom(tiny_patch(5), 2);
    CHECK(patch.photo.width == 80);
    CHECK(patch.slices[0].pixels_per_mm == Approx(8).epsilon(1e-6));
    const PhotoPoint corner = project(patch.slices[0].photo_from_slice, {-5, -5});
    CHECK(corner.x == Approx(-0.5).margin(1e-6));
    CHECK(corner.y == Approx(-0.5).margin(1e-6));
    // The truth is of the frame, not of the foam beyond it.
    const auto measures =
        crumb_measures(patch.slices[0].section, patch.slices[0].section.crumb, 0.5);
    CHECK(measures.at(Measure::crumb_area) == Approx(100).epsilon(0.03));
}

TEST_CASE("a recipe that cannot be made is refused by name") {
    PhantomRecipe recipe = tiny_patch(1);
    recipe.name = "thin";
    recipe.slices[0].thickness_mm = 0.5;
    CHECK_THROWS_WITH(make_phantom(recipe, 1), "phantom 'thin': thickness_mm must be 2 to 60");
    recipe = tiny_patch(1);
    recipe.slices[0].foam.openness = 1.2;
    CHECK_THROWS_AS(make_phantom(recipe, 1), std::invalid_argument);
}

TEST_CASE("the held-back family shares neither tables nor kinds of loaf with the other") {
    for (int i = 1; i <= 40; ++i) {
        const PhantomRecipe held = random_loaf(9, i, Family::held_back);
        const PhantomRecipe open = random_loaf(9, i, Family::development);
        CHECK(held.surface >= Surface::marble);
        CHECK(open.surface < Surface::marble);
        CHECK(held.slices[0].foam.cavern_share > 0);
        CHECK(held.light.lamp_distance_mm < 700.001);
        CHECK(open.light.lamp_distance_mm >= 699.999);
    }
}

TEST_CASE("random loaves stay within the stated ranges") {
    for (int i = 1; i <= 100; ++i) {
        const PhantomRecipe r = random_loaf(2, i, Family::development);
        CHECK(r.slices[0].thickness_mm >= 9);
        CHECK(r.slices[0].thickness_mm <= 20);
        CHECK(r.slices[0].foam.openness <= 0.85);
        const double from_table = -r.camera.eye[2];
        CHECK(from_table > 250);
        CHECK(from_table <= 450);
        CHECK(r.camera.forward[2] >= 0.939);  // within 20 degrees of straight down
    }
}

TEST_CASE("random loaves lie wholly in the frame at 8 pixels a millimetre and more") {
    for (const Family family : {Family::development, Family::held_back})
        for (int i = 1; i <= 60; ++i) {
            PhantomRecipe r = random_loaf(5, i, family);
            SliceRecipe& slice = r.slices[0];
            slice.pose.height_mm = height_of_cut(r, slice);
            const Homography h = photo_from_slice(r.camera, slice.pose);
            CAPTURE(i, r.camera.width);
            for (const PlanePoint& p : loaf_outline(slice.loaf)) {
                const PhotoPoint q = project(h, p);
                REQUIRE((q.x > 5 && q.x < r.camera.width - 6));
                REQUIRE((q.y > 5 && q.y < r.camera.height - 6));
            }
            const PhotoPoint a = project(h, {0, -20}), b = project(h, {10, -20});
            CHECK(std::hypot(a.x - b.x, a.y - b.y) > 75);  // along the foreshortened direction
        }
}
