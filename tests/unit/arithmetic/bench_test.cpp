#include "arithmetic/bench.h"

#include <vector>

#include "catch.h"

using namespace loafmark;

namespace {
WeighedPart flour(double grams) {
    return {IngredientKind::flour, Grams(grams), Fraction(0), Fraction(1)};
}
WeighedPart water(double grams) {
    return {IngredientKind::water, Grams(grams), Fraction(1), Fraction(0)};
}
}  // namespace

TEST_CASE("a dough is made wetter with water, stiffer with flour, the starter counted") {
    // 100 g of a starter of 100 % hydration hold 50 g of each.
    const std::vector<WeighedPart> parts{
        flour(450), water(275), {IngredientKind::leaven, Grams(100), Fraction(0.5), Fraction(0.5)}};
    const Addition wetter = addition_for(parts, Fraction(0.68)).value();
    CHECK(wetter.water.count() == Approx(15));
    CHECK(wetter.flour == Grams(0));
    const Addition stiffer = addition_for(parts, Fraction(0.625)).value();
    CHECK(stiffer.flour.count() == Approx(20));
    CHECK(stiffer.water == Grams(0));
}

TEST_CASE("what is added brings the dough where it was wanted") {
    for (const double wanted : {0.3, 0.55, 0.62, 0.75, 1.2}) {
        std::vector<WeighedPart> parts{flour(500), water(310)};
        const Addition more = addition_for(parts, Fraction(wanted)).value();
        parts.push_back(flour(more.flour.count()));
        parts.push_back(water(more.water.count()));
        CHECK(figures_of(parts)->hydration.count() == Approx(wanted));
    }
}

TEST_CASE("without flour there is no hydration to reach") {
    CHECK_FALSE(addition_for(std::vector{water(100)}, Fraction(0.7)));
}

// 900 g of dough and 783 g of bread: 13 %; 350 g and 273 g: 22 %.
TEST_CASE("bake loss is of the dough") {
    CHECK(percent(bake_loss(Grams(900), Grams(783))) == Approx(13));
    CHECK(percent(bake_loss(Grams(350), Grams(273))) == Approx(22));
}
