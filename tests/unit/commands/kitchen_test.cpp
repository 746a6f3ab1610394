#include "commands/kitchen.h"

#include "catch.h"
#include "commands/failure.h"
#include "fakes.h"

namespace loafmark::commands {
namespace {

bool holds(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("a kitchen is told line by line on a terminal") {
    journal::ExampleJournal example;
    FakeWorld world;
    world.type(
        "kelvin\nf\n"            // temperatures
        "0.1\n"                  // scales, in g
        "sourdough\nstarter\n"   // leaven
        "half an inch\n0.5in\n"  // thickness
        "4\n"                    // hours
        "=1800\nsmall tin = 1800\nlong=0\nlong tin\n\n"
        "Ada\nЮля\n\n");
    CHECK(run(KitchenSetOptions{}, example.journal, world.context()) == Outcome::done);
    const journal::Kitchen kitchen = example.journal.kitchen();
    CHECK(kitchen.facts.temperatures == "F");
    CHECK(kitchen.facts.scale_step == Grams(0.1));
    CHECK(kitchen.facts.leaven == "starter");
    CHECK(kitchen.facts.slice_thickness->count() == Approx(12.7));
    CHECK(kitchen.facts.cut_after == Hours(4));
    REQUIRE(kitchen.tins.size() == 2);
    CHECK(kitchen.tins[0].name == "long tin");
    CHECK_FALSE(kitchen.tins[0].volume);
    CHECK(kitchen.tins[1].volume == Millilitres(1800));
    CHECK(kitchen.tasters == std::vector<std::string>{"Ada", "Юля"});
    CHECK(holds(world.err.str(), "'kelvin' is no scale of temperatures; write C or F"));
    CHECK(holds(world.err.str(), "'0ml' is not a volume"));
    CHECK(holds(world.err.str(), "'=1800ml' names no tin; write it like 'small tin=1.8l'"));
    CHECK(holds(world.out.str(), "temperatures in"));
}

TEST_CASE("Enter leaves the kitchen as it is, and answers that end leave it untouched") {
    journal::ExampleJournal example;
    journal::KitchenChange change;
    change.facts.scale_step = Grams(5);
    change.facts.leaven = "fresh yeast";
    const journal::Kitchen before = example.journal.change_kitchen(change);
    FakeWorld world;
    world.type("\n\n\n\n\n\n\n");
    (void)run(KitchenSetOptions{}, example.journal, world.context());
    CHECK(example.journal.kitchen() == before);
    CHECK(holds(world.err.str(), "Your scales show steps of (g) [5g]:"));
    world.type("F\n1\nstarter\n15\n");
    CHECK_THROWS_AS(run(KitchenSetOptions{}, example.journal, world.context()), Failure);
    CHECK(example.journal.kitchen() == before);
}

TEST_CASE("a lone minus leaves the kitchen as it is, and names no tin and no taster") {
    journal::ExampleJournal example;
    journal::KitchenChange change = journal::with_tin("small tin", Millilitres(1800));
    change.facts.scale_step = Grams(5);
    change.facts.leaven = "fresh yeast";
    change.tasters = {"Ada"};
    const journal::Kitchen before = example.journal.change_kitchen(change);
    FakeWorld world;
    world.type("-\n-\n-\n-\n-\n-\n-\n");
    (void)run(KitchenSetOptions{}, example.journal, world.context());
    CHECK(example.journal.kitchen() == before);
    CHECK(holds(world.err.str(), "Enter or - leaves a line as it stands."));
    CHECK(holds(world.err.str(), "Enter or -: no more (there: small tin):"));
}

TEST_CASE("names in any script, and bytes of none, come out of the document") {
    journal::ExampleJournal example;
    FakeWorld world;
    journal::KitchenChange change = journal::with_tin("Kastenform 🍞 \xff");
    change.tasters = {"Юля"};
    (void)example.journal.change_kitchen(change);
    KitchenShowOptions options;
    options.json = true;
    (void)run(options, example.journal, world.context());
    CHECK(holds(world.out.str(), "Kastenform 🍞 \uFFFD"));
    CHECK(holds(world.out.str(), "Юля"));
}

TEST_CASE("without a terminal nothing is asked, and what is wanted is said") {
    journal::ExampleJournal example;
    FakeWorld world;
    CHECK_THROWS_AS(run(KitchenSetOptions{}, example.journal, world.context()), UsageError);
}

}  // namespace loafmark::commands
