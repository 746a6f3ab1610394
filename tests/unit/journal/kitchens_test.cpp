#include "catch.h"
#include "example_journal.h"

using namespace loafmark;
using namespace loafmark::journal;

TEST_CASE("a new kitchen knows nothing, and keeps what it is told once") {
    ExampleJournal example;
    CHECK(example.journal.kitchen().facts == KitchenFacts{});
    KitchenFacts scales;
    scales.scale_step = Grams(5);
    scales.leaven = "starter";
    (void)example.journal.change_kitchen(scales);
    KitchenFacts thickness;
    thickness.slice_thickness = Millimetres(15);
    const Kitchen kitchen = example.journal.change_kitchen(thickness);
    CHECK(kitchen.facts.scale_step == Grams(5));
    CHECK(kitchen.facts.leaven == "starter");
    CHECK(kitchen.facts.slice_thickness == Millimetres(15));
    CHECK_FALSE(kitchen.facts.cut_after);
    CHECK(example.journal.kitchen() == kitchen);
}

TEST_CASE("tins and tasters are kept once, whatever the case, and may be forgotten") {
    ExampleJournal example;
    (void)example.journal.keep_tin("Small tin", std::nullopt);
    const Kitchen kitchen = example.journal.keep_tin("small TIN", Millilitres(1800));
    REQUIRE(kitchen.tins.size() == 1);
    CHECK(kitchen.tins.front().name == "Small tin");
    CHECK(kitchen.tins.front().volume == Millilitres(1800));
    (void)example.journal.keep_taster("Ada");
    CHECK(example.journal.keep_taster("ada").tasters == std::vector<std::string>{"Ada"});
    CHECK(example.journal.forget_tin("SMALL tin"));
    CHECK_FALSE(example.journal.forget_tin("small tin"));
    CHECK(example.journal.forget_taster("Ada"));
    CHECK(example.journal.kitchen().tins.empty());
}

TEST_CASE("what a kitchen cannot be is refused") {
    ExampleJournal example;
    KitchenFacts facts;
    facts.scale_step = Grams(0);
    CHECK(message_of([&] { (void)example.journal.change_kitchen(facts); }) ==
          "the scales' step is not more than nothing");
    CHECK(message_of([&] { (void)example.journal.keep_tin(" ", std::nullopt); }) ==
          "the tin's name is empty");
}
