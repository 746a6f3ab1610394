#include "catch.h"
#include "example_journal.h"

using namespace loafmark;
using namespace loafmark::journal;

TEST_CASE("a new kitchen knows nothing, and keeps what it is told once") {
    ExampleJournal example;
    CHECK(example.journal.kitchen().facts == KitchenFacts{});
    KitchenChange scales;
    scales.facts.scale_step = Grams(5);
    scales.facts.leaven = "starter";
    (void)example.journal.change_kitchen(scales);
    KitchenChange others;
    others.facts.slice_thickness = Millimetres(15);
    others.facts.temperatures = "F";
    const Kitchen kitchen = example.journal.change_kitchen(others);
    CHECK(kitchen.facts.scale_step == Grams(5));
    CHECK(kitchen.facts.leaven == "starter");
    CHECK(kitchen.facts.slice_thickness == Millimetres(15));
    CHECK(kitchen.facts.temperatures == "F");
    CHECK_FALSE(kitchen.facts.cut_after);
    CHECK(example.journal.kitchen() == kitchen);
}

TEST_CASE("tins and tasters are kept once, whatever the case, and may be forgotten") {
    ExampleJournal example;
    KitchenChange change;
    change.tins = {{"Small tin", std::nullopt}, {"small TIN", Millilitres(1800)}};
    change.tasters = {"Ada", "ada"};
    const Kitchen kitchen = example.journal.change_kitchen(change);
    REQUIRE(kitchen.tins.size() == 1);
    CHECK(kitchen.tins.front().name == "Small tin");
    CHECK(kitchen.tins.front().volume == Millilitres(1800));
    CHECK(kitchen.tasters == std::vector<std::string>{"Ada"});
    KitchenChange gone;
    gone.forgotten_tins = {"SMALL tin"};
    gone.forgotten_tasters = {"Ada"};
    CHECK(example.journal.change_kitchen(gone).tins.empty());
    CHECK(message_of([&] { (void)example.journal.change_kitchen(gone); }) ==
          "there is no tin 'SMALL tin'");
}

TEST_CASE("a change of the kitchen is done wholly or not at all, and taken back in one go") {
    ExampleJournal example;
    KitchenChange change;
    change.facts.scale_step = Grams(1);
    change.tins = {{"Large", Millilitres(2600)}};
    change.forgotten_tasters = {"Ben"};
    CHECK(message_of([&] { (void)example.journal.change_kitchen(change); }) ==
          "there is no taster 'Ben'");
    CHECK(example.journal.kitchen().tins.empty());
    CHECK(example.journal.kitchen().facts == KitchenFacts{});
    change.forgotten_tasters.clear();
    (void)example.journal.change_kitchen(change);
    (void)example.journal.undo();
    CHECK(example.journal.kitchen().tins.empty());
    CHECK(example.journal.kitchen().facts == KitchenFacts{});
}

TEST_CASE("what a kitchen cannot be is refused") {
    ExampleJournal example;
    const auto refusal = [&](const KitchenChange& change) {
        return message_of([&] { (void)example.journal.change_kitchen(change); });
    };
    KitchenChange no_step;
    no_step.facts.scale_step = Grams(0);
    CHECK(refusal(no_step) == "the scales' step is not more than nothing");
    KitchenChange no_scale;
    no_scale.facts.temperatures = "K";
    CHECK(refusal(no_scale) == "the scale of temperatures is one of C, F, not 'K'");
    KitchenChange no_name;
    no_name.tins = {{" ", std::nullopt}};
    CHECK(refusal(no_name) == "the tin's name is empty");
}
