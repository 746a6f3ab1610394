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

TEST_CASE("side pinch is the deepest dent of a side from its hull") {
    // A waist 3 mm deep on the left, 2 mm on the right.
    const TrueMeasures m = outline_measures(
        {{-40, 0}, {40, 0}, {38, -30}, {40, -60}, {0, -80}, {-40, -60}, {-37, -30}});
    CHECK(m.at(Measure::side_pinch) == Approx(3));
    // Straight sides have none; a notch in the crown is no pinch.
    CHECK(
        outline_measures({{-40, 0}, {40, 0}, {40, -60}, {2, -60}, {0, -50}, {-2, -60}, {-40, -60}})
            .at(Measure::side_pinch) == Approx(0).margin(1e-9));
}

TEST_CASE("the pinch of a tin loaf grows with its waist") {
    LoafShape shape;
    shape.roughness_mm = 0;
    double before = -1;
    for (const double waist : {0.0, 1.5, 3.0, 4.5}) {
        shape.waist_mm = waist;
        const double pinch = outline_measures(loaf_outline(shape)).at(Measure::side_pinch);
        CHECK(pinch > before);
        CHECK(pinch < waist + 2.5);
        before = pinch;
    }
    CHECK(before > 3);
}

namespace {

TrueMeasures crust_of(const CrustShape& crust, const BreadLook& look) {
    const std::vector<PlanePoint> outline = loaf_outline({});
    const PlaneFieldGrid fields = loaf_fields(outline, crust, 2);
    return crust_measures(outline, fields.view(), look);
}

CrustShape even_crust() {
    CrustShape crust;
    crust.top_mm = 2;
    crust.base_mm = 3.5;
    crust.unevenness = 0;
    return crust;
}

}  // namespace

TEST_CASE("an even crust ends where lightness was made half-way, an uneven one near it") {
    BreadLook look;
    look.bran_share = 0;
    const TrueMeasures even = crust_of(even_crust(), look);
    CHECK(even.at(Measure::crust_thickness_top) == Approx(2).margin(0.12));
    CHECK(even.at(Measure::crust_thickness_base) == Approx(3.5).margin(0.2));
    CrustShape uneven = even_crust();
    uneven.unevenness = 0.45;
    CHECK(crust_of(uneven, look).at(Measure::crust_thickness_top) == Approx(2).epsilon(0.3));
}

TEST_CASE("flour that lies on the sides makes the base's crust end sooner") {
    BreadLook dusted;
    dusted.bran_share = 0;
    BreadLook plain = dusted;
    dusted.flour_dust = 1;
    CHECK(crust_of(even_crust(), dusted).at(Measure::crust_thickness_base) <
          crust_of(even_crust(), plain).at(Measure::crust_thickness_base) - 0.3);
}

TEST_CASE("where crust and crumb are alike the crust has no thickness") {
    BreadLook look;
    look.bran_share = 0;
    look.crust_top = look.crumb;
    CHECK_FALSE(crust_of(even_crust(), look).contains(Measure::crust_thickness_top));
}
