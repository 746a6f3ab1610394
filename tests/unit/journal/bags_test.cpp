#include "catch.h"
#include "example_journal.h"

using namespace loafmark;
using namespace loafmark::journal;

namespace {

Bag add_bag(ExampleJournal& example, Grams mass, std::optional<Date> opened) {
    NewBag bag;
    bag.flour = example.white.id;
    bag.bought_mass = mass;
    bag.opened = opened;
    return example.journal.add_bag(bag);
}

Bag now(const ExampleJournal& example, const Bag& bag) {
    return example.journal.bag(bag.id);
}

BakeEntry bake(ExampleJournal& example, Grams dough) {
    NewBake draft;
    draft.date = {2026, 3, 1};
    draft.formula_version = example.formula.id;  // 100 of flour, 68 of water
    draft.dough_mass = dough;
    return example.journal.add_bake(draft);
}

}  // namespace

TEST_CASE("a bake draws on the oldest open bag that holds flour") {
    ExampleJournal example;
    const Bag closed = add_bag(example, Grams(5000), std::nullopt);
    const Bag newer = add_bag(example, Grams(1000), Date{2026, 2, 20});
    const Bag older = add_bag(example, Grams(600), Date{2026, 2, 1});
    CHECK(bake(example, Grams(840)).bake.mixed[0].bag == older.id);
    CHECK(now(example, older).left->count() == Approx(100));
    CHECK(now(example, newer).left == Grams(1000));
    (void)bake(example, Grams(840));  // the older one is all that is open longest: it goes below
    CHECK(now(example, older).left->count() == Approx(-400));
    CHECK(bake(example, Grams(1680)).bake.mixed[0].bag == newer.id);
    CHECK(bake(example, Grams(840)).bake.mixed[0].bag == closed.id);
    CHECK(now(example, closed).opened == Date{2026, 3, 1});
}

TEST_CASE("a count corrects the stock, and later bakes draw on what was counted") {
    ExampleJournal example;
    const Bag bag = add_bag(example, Grams(1000), Date{2026, 2, 1});
    (void)bake(example, Grams(840));
    BagFacts counted;
    counted.left = Grams(450);
    CHECK(example.journal.change_bag(bag.id, counted).left->count() == Approx(450));
    (void)bake(example, Grams(168));
    CHECK(now(example, bag).left->count() == Approx(350));
    CHECK(now(example, bag).bought_mass == Grams(1000));
}

TEST_CASE("of a bag of unknown mass the stock stays unknown until it is learnt") {
    ExampleJournal example;
    NewBag draft;
    draft.flour = example.white.id;
    const Bag bag = example.journal.add_bag(draft);
    CHECK(bake(example, Grams(840)).bake.mixed[0].bag == bag.id);
    CHECK_FALSE(now(example, bag).left);
    BagFacts learnt;
    learnt.bought_mass = Grams(5000);
    CHECK(example.journal.change_bag(bag.id, learnt).left->count() == Approx(4500));
}

TEST_CASE("a starter draws the flour that it was fed with, not its water") {
    ExampleJournal example;
    const Bag bag = add_bag(example, Grams(1000), Date{2026, 2, 1});
    NewBake draft;
    draft.date = {2026, 3, 1};
    draft.formula_version = example.formula.id;
    draft.mixed = {{.kind = IngredientKind::leaven,
                    .name = "starter",
                    .flour = example.white.id,
                    .bag = std::nullopt,
                    .mass = Grams(200),
                    .water_fraction = Fraction(0.5),
                    .flour_fraction = Fraction(0.5)}};
    (void)example.journal.add_bake(draft);
    CHECK(now(example, bag).left->count() == Approx(900));
}

TEST_CASE("a flour without bags is baked with all the same") {
    ExampleJournal example;
    CHECK_FALSE(bake(example, Grams(840)).bake.mixed[0].bag);
}

TEST_CASE("a bag's facts may be changed one by one") {
    ExampleJournal example;
    const Bag bag = add_bag(example, Grams(1000), std::nullopt);
    BagFacts change;
    change.best_before = Date{2026, 9, 1};
    change.protein = Fraction(0.128);
    change.protein_basis = ProteinBasis::pack_eu;
    change.price = "4.20 EUR";
    const Bag changed = example.journal.change_bag(bag.id, change);
    CHECK(changed.best_before == Date{2026, 9, 1});
    CHECK(changed.price == "4.20 EUR");
    CHECK(changed.left == Grams(1000));
    CHECK(message_of([&] { (void)example.journal.change_bag(BagId{9}, change); }) ==
          "there is no bag 9");
}
