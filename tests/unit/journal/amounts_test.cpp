#include "journal/amounts.h"

#include "catch.h"
#include "example_journal.h"

using namespace loafmark;
using namespace loafmark::journal;

namespace {
Flour numbered_flour() {
    Flour flour;
    flour.id = {1};
    flour.name = "White";
    return flour;
}
}  // namespace

TEST_CASE("a formula's amounts keep names, flours and order") {
    const Flour white = numbered_flour();
    const std::vector formula{flour_line(white, 0.9), water_line(0.6), starter_line(white, 0.2),
                              salt_line(0.02)};
    const auto mixed = amounts_for_flour(formula, Grams(1000));
    REQUIRE(mixed.size() == 4);
    CHECK(mixed[0].name == "White");
    CHECK(mixed[0].flour == white.id);
    CHECK(mixed[0].mass == Grams(900));
    CHECK(mixed[2].kind == IngredientKind::leaven);
    CHECK(mixed[2].mass == Grams(200));
    CHECK_FALSE(mixed[2].bag);
    Grams dough(0);
    for (const MixedAmount& amount : amounts_for_dough(formula, Grams(860)))
        dough = dough + amount.mass;
    CHECK(dough.count() == Approx(860));
}

TEST_CASE("amounts for any mass have the formula's figures") {
    const Flour white = numbered_flour();
    const std::vector formula{flour_line(white, 0.85), water_line(0.57), starter_line(white, 0.3),
                              salt_line(0.018)};
    const DoughFigures asked = figures_of(parts_of(formula)).value();
    CHECK(percent(asked.hydration) == Approx(72));
    const double dough = GENERATE(1.0, 450.0, 900.0, 123456.7);
    const DoughFigures got = figures_of(parts_of(amounts_for_dough(formula, Grams(dough)))).value();
    CHECK(got.hydration.count() == Approx(asked.hydration.count()));
    CHECK(got.prefermented_flour.count() == Approx(asked.prefermented_flour.count()));
    CHECK(got.salt.count() == Approx(asked.salt.count()));
}
