// Views for scale and outline: what their recipes promise, and that a picture keeps it.
#include <algorithm>
#include <cmath>

#include "catch.h"
#include "phantoms/phantom.h"
#include "phantoms/recipes.h"
#include "phantoms/truth.h"

using namespace loafmark;
using namespace loafmark::phantoms;

namespace {

using MakeRecipe = PhantomRecipe (*)(std::uint32_t, int, Family);

std::vector<PlanePoint> as_it_lies(const SliceRecipe& slice) {
    std::vector<PlanePoint> points;
    const double c = std::cos(slice.pose.angle), s = std::sin(slice.pose.angle);
    for (const PlanePoint& p : loaf_outline(slice.loaf))
        points.push_back({slice.pose.origin_mm.x + c * p.x - s * p.y,
                          slice.pose.origin_mm.y + s * p.x + c * p.y});
    return points;
}

bool holds(const std::vector<PlanePoint>& polygon, PlanePoint p) {
    bool in = false;
    for (std::size_t i = 0, j = polygon.size() - 1; i < polygon.size(); j = i++) {
        const PlanePoint a = polygon[i], b = polygon[j];
        if ((a.y > p.y) != (b.y > p.y) && p.x < (b.x - a.x) * (p.y - a.y) / (b.y - a.y) + a.x)
            in = !in;
    }
    return in;
}

// A view at a tenth of its size, for a look at what the renderer makes of it.
PhantomRecipe small(PhantomRecipe recipe) {
    recipe.camera.width /= 10;
    recipe.camera.height /= 10;
    recipe.voxel_mm = 0.25;
    recipe.foam_depth_mm = 3;
    for (SliceRecipe& slice : recipe.slices) {
        slice.foam.diameter_mm = 3;
        slice.foam.matrix_share = 0;
        slice.foam.fines_per_mm3 = 0;
    }
    return recipe;
}

}  // namespace

TEST_CASE("every view shows slices and markers whole, at its resolution") {
    for (const MakeRecipe make : {shape_view, several_view, standing_view})
        for (const Family family : {Family::development, Family::held_back})
            for (int i = 1; i <= 36; ++i) {
                const PhantomRecipe r = make(12, i, family);
                CAPTURE(r.look, i);
                const bool coarse = r.look.starts_with("low resolution");
                for (const SliceRecipe& slice : r.slices) {
                    const Homography h = photo_from_slice(r.camera, slice.pose);
                    for (const PlanePoint& p : loaf_outline(slice.loaf)) {
                        const PhotoPoint q = project(h, p);
                        REQUIRE((q.x > 5 && q.x < r.camera.width - 6));
                        REQUIRE((q.y > 5 && q.y < r.camera.height - 6));
                    }
                    const double y = -slice.loaf.height_mm / 2;
                    const PhotoPoint a = project(h, {0, y}), b = project(h, {10, y});
                    CHECK(std::hypot(a.x - b.x, a.y - b.y) > (coarse ? 35 : 65));
                }
                for (const TargetMarker& marker : markers_of(*r.target)) {
                    const PhotoPoint q = project(photo_from_paper(r.camera), marker.centre_mm);
                    REQUIRE((q.x > 5 && q.x < r.camera.width - 6));
                    REQUIRE((q.y > 5 && q.y < r.camera.height - 6));
                }
            }
}

TEST_CASE("several slices of one photo lie apart") {
    for (int i = 1; i <= 60; ++i) {
        const PhantomRecipe r = several_view(13, i, Family::development);
        CAPTURE(i);
        REQUIRE(r.slices.size() == 2 + static_cast<std::size_t>(i - 1) % 3);
        for (std::size_t a = 0; a < r.slices.size(); ++a)
            for (std::size_t b = 0; b < r.slices.size(); ++b) {
                if (a == b) continue;
                const std::vector<PlanePoint> other = as_it_lies(r.slices[b]);
                const std::vector<PlanePoint> own = as_it_lies(r.slices[a]);
                CHECK(std::none_of(own.begin(), own.end(),
                                   [&](PlanePoint p) { return holds(other, p); }));
            }
    }
}

TEST_CASE("a ruler's half millimetres stay within half a millimetre of the cut's height") {
    for (int i = 1; i <= 60; ++i) {
        const PhantomRecipe r = shape_view(14, i, Family::development);
        const SliceRecipe& slice = r.slices[0];
        REQUIRE(slice.ruled_mm);
        CHECK(std::abs(*slice.ruled_mm - (height_of_cut(r, slice) - slice.gap_mm)) < 0.75);
        CHECK(std::fmod(*slice.ruled_mm * 2, 1) == 0);
    }
    CHECK_FALSE(standing_view(14, 1, Family::development).slices[0].ruled_mm);
}

TEST_CASE("twelve scenes in turn make up the shape views") {
    std::vector<std::string> looks;
    for (int i = 1; i <= 24; ++i) {
        const PhantomRecipe r = shape_view(15, i, Family::held_back);
        looks.push_back(r.look.substr(0, r.look.find(';')));
        CHECK(r.surface >= Surface::marble);
        CHECK(r.plate.there == (looks.back() == "on a plate"));
        CHECK(r.focal_length_in_exif == (looks.back() != "no focal length in EXIF"));
    }
    for (std::size_t i = 0; i < 12; ++i)
        CHECK(looks[i] == looks[i + 12]);
    std::sort(looks.begin(), looks.begin() + 12);
    CHECK(std::unique(looks.begin(), looks.begin() + 12) == looks.begin() + 12);
}

TEST_CASE("a view's section lies inside its outline and fills it") {
    for (const MakeRecipe make : {shape_view, several_view, standing_view}) {
        const Phantom view = make_phantom(small(make(16, 3, Family::development)), 2);
        for (const PhantomSlice& slice : view.slices) {
            const double pixel = slice.section.mm_per_pixel * slice.section.mm_per_pixel;
            const auto inside = std::count(slice.section.loaf.begin(), slice.section.loaf.end(), 1);
            const TrueMeasures m = outline_measures(slice.outline);
            CHECK(static_cast<double>(inside) * pixel ==
                  Approx(m.at(Measure::cross_section_area)).epsilon(0.01));
            CHECK(m.at(Measure::side_pinch) >= 0);
            CHECK(m.at(Measure::side_pinch) < 10);
        }
    }
}

TEST_CASE("views are the same for any number of threads") {
    for (const MakeRecipe make : {shape_view, several_view, standing_view}) {
        const PhantomRecipe recipe = small(make(17, 7, Family::held_back));
        CHECK(make_phantom(recipe, 1).photo == make_phantom(recipe, 3).photo);
    }
}
