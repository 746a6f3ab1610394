#include "arithmetic/bakers_percent.h"

#include <cmath>
#include <numeric>
#include <random>

#include "catch.h"

using namespace loafmark;

namespace {

constexpr auto flour = IngredientKind::flour;
constexpr auto water = IngredientKind::water;
constexpr auto salt = IngredientKind::salt;
constexpr auto leaven = IngredientKind::leaven;
constexpr auto other = IngredientKind::other;

WeighedPart weighed(IngredientKind kind, double grams) {
    return {kind, Grams(grams), Fraction(kind == water ? 1 : 0), Fraction(kind == flour ? 1 : 0)};
}
WeighedPart starter(double grams, double hydration) {
    const auto [of_water, of_flour] = starter_fractions(Fraction(hydration));
    return {leaven, Grams(grams), of_water, of_flour};
}
DoughPart share(IngredientKind kind, double fraction) {
    return {kind, Fraction(fraction), Fraction(kind == water ? 1 : 0),
            Fraction(kind == flour ? 1 : 0)};
}
DoughPart starter_share(double fraction, double hydration) {
    const auto [of_water, of_flour] = starter_fractions(Fraction(hydration));
    return {leaven, Fraction(fraction), of_water, of_flour};
}
double sum(const std::vector<Grams>& masses) {
    return std::accumulate(masses.begin(), masses.end(), Grams(0)).count();
}

}  // namespace

// Masses: Kleinwaechter, The Sourdough Framework (open book), tables of baker's math, which count
// the flour in the bowl only. The figures on all flour are the closed form: a starter of mass m and
// hydration h holds m/(1+h) flour and m*h/(1+h) water.
TEST_CASE("a starter's flour and water count in hydration, salt and pre-fermented flour") {
    struct Case {
        const char* name;
        double flour, water, starter, starter_hydration, salt;
        double hydration, bowl_hydration, prefermented, salt_share, dough;
    };
    const auto cases = {
        Case{"pizza", 1000, 600, 100, 1.0, 20, 61.904761904761905, 60, 4.761904761904762,
             1.9047619047619047, 1720},
        Case{"wheat, stiff starter", 500, 350, 50, 0.5, 10, 68.75, 70, 6.25, 1.875, 910},
        Case{"rye", 1000, 800, 200, 1.0, 20, 81.81818181818181, 80, 9.090909090909092,
             1.8181818181818181, 2020},
        Case{"liquid starter", 1000, 600, 120, 5.0, 20, 68.62745098039215, 60, 1.9607843137254901,
             1.9607843137254901, 1740},
    };
    for (const Case& c : cases) {
        INFO(c.name);
        const std::vector parts{weighed(flour, c.flour), weighed(water, c.water),
                                starter(c.starter, c.starter_hydration), weighed(salt, c.salt)};
        const auto figures = figures_of(parts);
        REQUIRE(figures);
        CHECK(percent(figures->hydration) == Approx(c.hydration).margin(1e-9));
        CHECK(percent(figures->bowl_hydration.value()) == Approx(c.bowl_hydration).margin(1e-9));
        CHECK(percent(figures->prefermented_flour) == Approx(c.prefermented).margin(1e-9));
        CHECK(percent(figures->salt) == Approx(c.salt_share).margin(1e-9));
        const double all_flour = c.flour + c.starter / (1 + c.starter_hydration);
        CHECK(figures->total.count() * all_flour == Approx(c.dough).margin(1e-9));
    }
}

// Closed form: all flour = dough / sum of shares.
TEST_CASE("a formula scales to a mass of dough") {
    // 1800 g, hydration 72 %, salt 2 %, 18 % of the flour in a starter at 100 %.
    const std::vector lean{share(flour, 0.82), share(water, 0.54), starter_share(0.36, 1.0),
                           share(salt, 0.02)};
    const auto masses = masses_for_dough(lean, Grams(1800));
    REQUIRE(masses.size() == 4);
    CHECK(masses[0].count() == Approx(848.2758620689656).margin(1e-9));
    CHECK(masses[1].count() == Approx(558.6206896551724).margin(1e-9));
    CHECK(masses[2].count() == Approx(372.4137931034483).margin(1e-9));
    CHECK(masses[3].count() == Approx(20.689655172413797).margin(1e-9));
    CHECK(percent(figures_of(lean)->hydration) == Approx(72).margin(1e-9));
    CHECK(percent(figures_of(lean)->prefermented_flour) == Approx(18).margin(1e-9));
    // 1000 g of a blend of three flours at 75 %.
    const std::vector blend{share(flour, 0.7), share(flour, 0.2), share(flour, 0.1),
                            share(water, 0.75), share(salt, 0.02)};
    const auto parts = masses_for_dough(blend, Grams(1000));
    CHECK(parts[0].count() == Approx(395.48022598870057).margin(1e-9));
    CHECK(parts[1].count() == Approx(112.99435028248587).margin(1e-9));
    CHECK(parts[2].count() == Approx(56.497175141242934).margin(1e-9));
    CHECK(parts[3].count() == Approx(423.728813559322).margin(1e-9));
    CHECK(parts[4].count() == Approx(11.299435028248588).margin(1e-9));
}

TEST_CASE("a formula scales to a mass of flour, a starter's included") {
    const std::vector lean{share(flour, 0.82), share(water, 0.54), starter_share(0.36, 1.0)};
    const auto masses = masses_for_flour(lean, Grams(1000));
    CHECK(masses[0].count() == Approx(820));
    CHECK(masses[2].count() == Approx(360));
}

// Book table: water 60 %, starter 10 %, salt 2 % of the flour in the bowl.
TEST_CASE("shares of bowl flour become shares of all flour") {
    const std::vector book{share(flour, 1), share(water, 0.6), starter_share(0.1, 1.0),
                           share(salt, 0.02)};
    const auto shares = as_shares_of_all_flour(book);
    REQUIRE(shares.size() == 4);
    CHECK(shares[0].share.count() == Approx(1000.0 / 1050));
    CHECK(shares[2].share.count() == Approx(100.0 / 1050));
    CHECK(shares[3].share.count() == Approx(0.019047619047619047));
}

TEST_CASE("milk counts as water by its part of water") {
    const std::vector milk_dough{share(flour, 1),
                                 DoughPart{other, Fraction(0.5), Fraction(0.87), Fraction(0)}};
    CHECK(figures_of(milk_dough)->hydration.count() == Approx(0.435));
}

TEST_CASE("a dough without flour has no figures, one without bowl flour no bowl hydration") {
    CHECK_FALSE(figures_of(std::vector{share(water, 1)}));
    CHECK_FALSE(figures_of(std::vector<DoughPart>{}));
    CHECK(as_shares_of_all_flour(std::vector{share(salt, 1)}).empty());
    CHECK(masses_for_dough({}, Grams(500)).empty());
    const auto all_leaven = figures_of(std::vector{starter_share(2, 1.0)});
    REQUIRE(all_leaven);
    CHECK_FALSE(all_leaven->bowl_hydration);
    CHECK(all_leaven->prefermented_flour.count() == Approx(1));
}

TEST_CASE("roundings to the scale's step cancel") {
    const std::vector thirds{Grams(333.4), Grams(333.4), Grams(333.4)};
    CHECK(sum(rounded_to_step(thirds, Grams(1))) == Approx(1000));
    const std::vector masses{Grams(848.2758620689656), Grams(558.6206896551724),
                             Grams(372.4137931034483), Grams(20.689655172413797)};
    CHECK(rounded_to_step(masses, Grams(1)) ==
          std::vector{Grams(848), Grams(559), Grams(372), Grams(21)});
    CHECK(rounded_to_step(masses, Grams(5))[1] == Grams(560));
}

TEST_CASE("small amounts keep decimals that a whole step would lose") {
    const std::vector masses{Grams(500), Grams(3.04), Grams(0.426)};
    const auto rounded = rounded_to_step(masses, Grams(1));
    CHECK(rounded[0].count() == 500);
    CHECK(rounded[1].count() == Approx(3.0));
    CHECK(rounded[2].count() == Approx(0.43));
}

TEST_CASE("scaling a dough changes no percentage, and rounding moves none far") {
    std::mt19937_64 random(20260302);
    std::uniform_real_distribution<double> uniform(0.05, 1);
    for (int i = 0; i < 100; ++i) {
        const std::vector parts{share(flour, uniform(random)), share(flour, uniform(random)),
                                share(water, uniform(random)),
                                starter_share(uniform(random), 0.5 + uniform(random)),
                                share(salt, 0.02 * uniform(random))};
        const Grams dough(200 + 5000 * uniform(random));
        const auto masses = masses_for_dough(parts, dough);
        CHECK(sum(masses) == Approx(dough.count()));
        const auto weigh = [&](const std::vector<Grams>& grams) {
            std::vector<WeighedPart> result;
            for (std::size_t k = 0; k < parts.size(); ++k)
                result.push_back(
                    {parts[k].kind, grams[k], parts[k].water_fraction, parts[k].flour_fraction});
            return figures_of(result).value();
        };
        const DoughFigures before = figures_of(parts).value();
        const DoughFigures after = weigh(masses);
        CHECK(after.hydration.count() == Approx(before.hydration.count()));
        CHECK(after.bowl_hydration->count() == Approx(before.bowl_hydration->count()));
        CHECK(after.prefermented_flour.count() == Approx(before.prefermented_flour.count()));
        CHECK(after.salt.count() == Approx(before.salt.count()));
        CHECK(after.total.count() == Approx(before.total.count()));

        const auto rounded = rounded_to_step(masses, Grams(1));
        CHECK(std::abs(sum(rounded) - dough.count()) <= 0.5 + 5 * 0.05 + 1e-9);
        for (std::size_t k = 0; k < masses.size(); ++k)
            CHECK(std::abs(rounded[k].count() - masses[k].count()) <= 1);
    }
}
