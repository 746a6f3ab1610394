// What holds of any dough, bag and quantity.
#include <rapidcheck.h>

#include <cmath>
#include <filesystem>
#include <random>

#include "arithmetic/bakers_percent.h"
#include "arithmetic/bench.h"
#include "arithmetic/quantities.h"
#include "catch.h"
#include "journal/amounts.h"
#include "journal/journal.h"

using namespace loafmark;

namespace {

// A whole number between the ends, over `per`.
double between(int low, int high, double per) {
    return *rc::gen::inRange(low, high + 1) / per;
}

std::vector<DoughPart> any_dough() {
    std::vector<DoughPart> parts{
        {IngredientKind::flour, Fraction(between(1, 1000, 1000)), Fraction(0), Fraction(1)}};
    const int more = *rc::gen::inRange(0, 6);
    for (int i = 0; i < more; ++i) {
        const double water = between(0, 100, 100);
        const double flour = between(0, 100, 100) * (1 - water);
        parts.push_back(
            {*rc::gen::element(IngredientKind::flour, IngredientKind::water, IngredientKind::salt,
                               IngredientKind::leaven, IngredientKind::other),
             Fraction(between(0, 1000, 1000)), Fraction(water), Fraction(flour)});
    }
    return as_shares_of_all_flour(parts);
}

std::vector<WeighedPart> weighed(const std::vector<DoughPart>& parts,
                                 const std::vector<Grams>& masses) {
    std::vector<WeighedPart> result;
    for (std::size_t i = 0; i < parts.size(); ++i)
        result.push_back(
            {parts[i].kind, masses[i], parts[i].water_fraction, parts[i].flour_fraction});
    return result;
}

bool close(double a, double b, double tolerance = 1e-9) {
    return std::abs(a - b) <= tolerance * std::max({1.0, std::abs(a), std::abs(b)});
}

}  // namespace

TEST_CASE("scaling a dough keeps its percentages") {
    CHECK(rc::check([] {
        const auto parts = any_dough();
        const Grams dough(between(1, 100'000, 10));
        const auto masses = masses_for_dough(parts, dough);
        const auto again = figures_of(weighed(parts, masses)).value();
        const auto before = figures_of(parts).value();
        RC_ASSERT(close(again.hydration.count(), before.hydration.count()));
        RC_ASSERT(close(again.salt.count(), before.salt.count()));
        RC_ASSERT(close(again.prefermented_flour.count(), before.prefermented_flour.count()));
    }));
}

TEST_CASE("rounding to the scales' step does not drift") {
    CHECK(rc::check([] {
        const auto parts = any_dough();
        const Grams step(between(1, 100, 10));
        const auto masses = masses_for_dough(parts, Grams(between(1, 100'000, 10)));
        const auto rounded = rounded_to_step(masses, step);
        double drift = 0;
        for (std::size_t i = 0; i < masses.size(); ++i) {
            RC_ASSERT(std::abs((rounded[i] - masses[i]).count()) <= step.count() + 1e-9);
            drift += (rounded[i] - masses[i]).count();
        }
        RC_ASSERT(std::abs(drift) <= step.count() / 2 + 1e-6);
    }));
}

TEST_CASE("what adjusting adds brings any dough to the hydration wished") {
    CHECK(rc::check([] {
        const auto parts = any_dough();
        auto mixed = weighed(parts, masses_for_flour(parts, Grams(between(10, 100'000, 10))));
        const Fraction wished(between(30, 200, 100));
        const Addition more = addition_for(mixed, wished).value();
        RC_ASSERT(more.water >= Grams(0));
        RC_ASSERT(more.flour >= Grams(0));
        mixed.push_back({IngredientKind::water, more.water, Fraction(1), Fraction(0)});
        mixed.push_back({IngredientKind::flour, more.flour, Fraction(0), Fraction(1)});
        RC_ASSERT(close(figures_of(mixed)->hydration.count(), wished.count()));
    }));
}

TEST_CASE("quantities are printed as they are read") {
    CHECK(rc::check([] {
        const Grams mass(between(0, 10'000'000, 1000));
        RC_ASSERT(close(parse_mass(to_text(mass)).count(), mass.count()));
        const Millilitres volume(between(1, 10'000'000, 1000));
        RC_ASSERT(close(parse_volume(to_text(volume)).count(), volume.count()));
        const Celsius temperature(between(-10'000, 300'000, 1000));
        RC_ASSERT(close(parse_temperature(to_text(temperature)).degrees(), temperature.degrees()));
        const Fraction share(between(0, 300'000, 100'000));
        RC_ASSERT(close(parse_percentage(to_text(share)).count(), share.count()));
        const Minutes time(between(0, 100'000, 10));
        RC_ASSERT(close(parse_duration(to_text(time)).count(), time.count()));
    }));
}

TEST_CASE(
    "stock is what was bought less what was mixed, counted or not, and below nothing it shows") {
    const auto folder = std::filesystem::temp_directory_path() /
                        ("loafmark-stock-" + std::to_string(std::random_device{}()));
    auto journal = journal::Journal::open(folder);
    journal::NewFlour draft;
    draft.name = "White";
    const auto flour = journal.add_flour(draft);
    const journal::Ingredient line{IngredientKind::flour, "White",     flour.id, Fraction(1),
                                   Fraction(0),           Fraction(1), "dough"};
    const auto formula = journal.add_formula("Plain", {{line}, {}});
    CHECK(rc::check([&] {
        journal::NewBag bag;
        bag.flour = flour.id;
        bag.bought_mass = Grams(between(0, 5000, 1));
        const auto id = journal.add_bag(bag).id;
        double left = bag.bought_mass->count();
        const int events = *rc::gen::inRange(0, 4);
        for (int i = 0; i < events; ++i) {
            const Grams mass(between(0, 3000, 1));
            if (*rc::gen::arbitrary<bool>()) {
                journal::BagFacts counted;
                counted.left = mass;
                (void)journal.change_bag(id, counted);
                left = mass.count();
                continue;
            }
            journal::NewBake bake;
            bake.date = {2026, 3, 1};
            bake.formula_version = formula.id;
            bake.mixed = journal::amounts_for_flour(formula.ingredients, mass);
            bake.mixed.front().bag = id;
            (void)journal.add_bake(bake);
            left -= mass.count();
        }
        RC_ASSERT(close(journal.bag(id).left.value().count(), left, 1e-6));
    }));
    std::filesystem::remove_all(folder);
}
