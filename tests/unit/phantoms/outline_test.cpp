#include "phantoms/outline.h"

#include "catch.h"
#include "phantoms/truth.h"

using namespace loafmark;
using namespace loafmark::phantoms;

TEST_CASE("the outline of a smooth loaf has the size that was asked for and a straight base") {
    for (const LoafForm form : {LoafForm::tin, LoafForm::free_form}) {
        LoafShape shape;
        shape.form = form;
        shape.roughness_mm = 0;
        const auto outline = loaf_outline(shape);
        const TrueMeasures measures = outline_measures(outline);
        CHECK(measures.at(Measure::loaf_width) == Approx(shape.width_mm).epsilon(0.01));
        CHECK(measures.at(Measure::loaf_height) == Approx(shape.height_mm).epsilon(0.01));
        for (const PlanePoint& p : outline)
            CHECK(p.y <= 0);
    }
}

TEST_CASE("the measures of a rectangle are those of a rectangle") {
    const TrueMeasures m = outline_measures({{-40, 0}, {40, 0}, {40, -60}, {-40, -60}});
    CHECK(m.at(Measure::loaf_height) == 60);
    CHECK(m.at(Measure::loaf_width) == 80);
    CHECK(m.at(Measure::base_width) == 80);
    CHECK(m.at(Measure::cross_section_area) == 4800);
    CHECK(m.at(Measure::height_to_width) == 0.75);
}

TEST_CASE("the fields tell outline and crust by their distances") {
    CrustShape crust;
    crust.unevenness = 0;
    const auto grid = loaf_fields({{-40, 0}, {40, 0}, {40, -60}, {-40, -60}}, crust, 2);
    const PlaneSample middle = plane_at(grid.view(), 0, -30);
    CHECK(middle.outline == Approx(-30));
    CHECK(middle.crumb_depth == Approx(30 - crust.base_mm));
    const PlaneSample side = plane_at(grid.view(), 39, -30);
    CHECK(side.outline == Approx(-1));
    CHECK(side.crumb_depth == Approx(1 - crust.top_mm));
    CHECK(plane_at(grid.view(), 42, -30).outline == Approx(2));
}
