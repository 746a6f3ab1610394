#include "catch.h"
#include "commands/bake.h"
#include "commands/failure.h"
#include "fakes.h"

namespace loafmark::commands {
namespace {

bool holds(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

struct AtTheTerminal {
    journal::ExampleJournal example;
    FakeWorld world;
    BakeAddOptions options;

    AtTheTerminal() {
        journal::KitchenChange kitchen = journal::with_tin("small tin", Millilitres(1800));
        kitchen.facts.leaven = "fresh yeast";
        (void)example.journal.change_kitchen(kitchen);
    }
    void add(const std::string& typed) {
        world.type(typed);
        (void)run(options, example.journal, world.context());
    }
    [[nodiscard]] std::size_t bakes() const { return example.journal.find().size(); }
    [[nodiscard]] journal::BakeEntry last() const {
        return example.journal.bake(example.journal.find_bake("last", {2026, 3, 5}));
    }
};

}  // namespace

TEST_CASE("a bake is added line by line, and the last one's answers are the next one's defaults") {
    AtTheTerminal kitchen;
    kitchen.add(
        "\n"               // the only formula
        "\n900\n"          // an amount is wanted
        "\n"               // one loaf
        "smal tin\nyes\n"  // a slip
        "76\n24.5\n"       // no dough is at 76 C
        "sticky\ntacky\n"
        "slowly\n"
        "950\n820\n");  // no loaf outweighs its dough
    const std::string told = kitchen.world.err.str();
    CHECK(holds(told, "'smal tin' is a new tin. Did you mean 'small tin'? (yes or no)"));
    CHECK(holds(told, "'76C' is no dough's temperature; did you mean 76F?"));
    CHECK(holds(told, "'sticky' is no handling; write stiff, firm,"));
    CHECK(holds(told, "950g is more than all the dough, 900g"));
    const journal::BakeEntry first = kitchen.last();
    CHECK(first.formula_name == "Plain loaf");
    CHECK(first.bake.dough_temperature == Celsius(24.5));
    CHECK(first.bake.handling == "tacky");
    REQUIRE(first.loaves.size() == 1);
    CHECK(first.loaves[0].loaf.tin == "small tin");
    CHECK(first.loaves[0].loaf.dough_mass->count() == Approx(900));
    CHECK(first.loaves[0].loaf.facts.dent == "slowly");
    CHECK(first.loaves[0].loaf.baked_mass == Grams(820));

    kitchen.add("\n\n\n\n\n\n-\n\n");
    const journal::BakeEntry second = kitchen.last();
    CHECK(second.bake.id != first.bake.id);
    CHECK(second.bake.dough_temperature == Celsius(24.5));
    CHECK(second.bake.handling == "tacky");
    CHECK(second.loaves[0].loaf.tin == "small tin");
    CHECK(second.loaves[0].loaf.dough_mass->count() == Approx(900));
    CHECK_FALSE(second.loaves[0].loaf.facts.dent);
    CHECK_FALSE(second.loaves[0].loaf.baked_mass);  // shown, never taken over
    CHECK(holds(kitchen.world.err.str(), "(last time 820g)"));
}

TEST_CASE("a new tin may have a name near one that is there") {
    AtTheTerminal kitchen;
    kitchen.add("\n900\n1\nSMALL tin 2\nno\n\n\n\n\n");
    CHECK(kitchen.last().loaves[0].loaf.tin == "SMALL tin 2");
    // What the last bake was in is known from then on, whether Enter takes it or it is typed.
    kitchen.add("\n\n\n\n\n\n\n\n");
    CHECK(kitchen.last().loaves[0].loaf.tin == "SMALL tin 2");
    kitchen.add("\n\n\nsmall TIN 2\n\n\n\n\n");
    CHECK(kitchen.last().loaves[0].loaf.tin == "SMALL tin 2");
    kitchen.add("\n\n\nSMALL tin\n\n\n\n\n");
    CHECK(kitchen.last().loaves[0].loaf.tin == "small tin");
    CHECK(kitchen.bakes() == 4);
}

TEST_CASE("what was said as an option is not asked") {
    AtTheTerminal kitchen;
    kitchen.options.formula = "plain";
    kitchen.options.free_form = true;
    kitchen.options.facts.handling = "slack";
    kitchen.add("700\n2\n\n\n340\n\n");
    CHECK_FALSE(holds(kitchen.world.err.str(), "Formula"));
    CHECK_FALSE(holds(kitchen.world.err.str(), "handled"));
    const journal::BakeEntry bake = kitchen.last();
    REQUIRE(bake.loaves.size() == 2);
    CHECK(bake.loaves[0].loaf.free_form == true);
    CHECK(bake.loaves[0].loaf.baked_mass == Grams(340));
    CHECK_FALSE(bake.loaves[1].loaf.baked_mass);
    // With enough said nothing is asked at all.
    kitchen.options.dough = Grams(900);
    kitchen.add("");
    CHECK(kitchen.bakes() == 2);
}

TEST_CASE("a kitchen that reads Fahrenheit is asked in Fahrenheit, and the journal keeps Celsius") {
    AtTheTerminal kitchen;
    journal::KitchenChange change;
    change.facts.temperatures = "F";
    (void)kitchen.example.journal.change_kitchen(change);
    kitchen.add("\n900\n\n\n77\n\n\n\n");
    CHECK(holds(kitchen.world.err.str(), "The dough after mixing (F):"));
    CHECK(kitchen.last().bake.dough_temperature->degrees() == Approx(25));
    kitchen.add("\n\n\n\n\n\n\n\n");
    CHECK(holds(kitchen.world.err.str(), "The dough after mixing (F) [77F]:"));
    CHECK(kitchen.last().bake.dough_temperature->degrees() == Approx(25));
}

TEST_CASE("answers that end anywhere leave no bake") {
    const std::string all = "Plain\n900\n2\nsmall tin\n25\ntacky\nslowly\n440\n430\n";
    AtTheTerminal kitchen;
    for (std::size_t i = 0; i + 1 < all.size(); ++i) {
        if (i > 0 && all[i - 1] != '\n') continue;
        INFO("after " << i);
        CHECK_THROWS_AS(kitchen.add(all.substr(0, i)), Failure);
    }
    CHECK(kitchen.bakes() == 0);
    kitchen.add(all);
    CHECK(kitchen.bakes() == 1);
}

TEST_CASE("a journal that knows nothing yet offers to be told of the kitchen first") {
    journal::ExampleJournal example;
    FakeWorld world;
    BakeAddOptions options;
    options.formula = "plain";
    options.dough = std::nullopt;
    world.type("yes\nF\n1\n\n15\n\nlarge=2600\n\nAda\n\n900\n\n\n77\n\n\n\n");
    (void)run(options, example.journal, world.context());
    CHECK(example.journal.kitchen().tins.at(0).name == "large");
    CHECK(example.journal.find().at(0).bake.dough_temperature->degrees() == Approx(25));
    world.type("\n900\n\n\n\n\n\n\n");  // asked once only
    const std::string before = world.err.str();
    (void)run(options, example.journal, world.context());
    CHECK_FALSE(holds(world.err.str().substr(before.size()), "kitchen is not known"));
}

TEST_CASE("without a terminal it is said what is missing") {
    AtTheTerminal kitchen;
    CHECK_THROWS_AS(run(kitchen.options, kitchen.example.journal, kitchen.world.context()),
                    UsageError);
    kitchen.options.formula = "plain";
    CHECK_THROWS_AS(run(kitchen.options, kitchen.example.journal, kitchen.world.context()),
                    UsageError);
    CHECK(kitchen.bakes() == 0);
}

TEST_CASE("without a formula there is no bake, on a terminal neither") {
    journal::TemporaryFolder folder;
    auto journal = journal::Journal::open(folder / "journal");
    FakeWorld world;
    world.type("\n\n\n");
    try {
        (void)run(BakeAddOptions{}, journal, world.context());
        FAIL("it was added");
    } catch (const Failure& failure) {
        CHECK(holds(failure.remedy(), "loafmark formula add --help"));
    }
}

TEST_CASE("the kitchen's yeast is the bake's leaven where the formula has a leaven without flour") {
    AtTheTerminal kitchen;
    journal::Ingredient yeast = journal::salt_line(0.01);
    yeast.kind = IngredientKind::leaven;
    yeast.name = "yeast";
    (void)kitchen.example.journal.add_formula(
        "Yeasted",
        {{journal::flour_line(kitchen.example.white, 1), journal::water_line(0.66), yeast}, {}});
    kitchen.options.formula = "yeasted";
    kitchen.options.dough = Grams(900);
    kitchen.add("");
    CHECK(kitchen.last().bake.facts.leaven == "fresh yeast");
    kitchen.options.facts.facts.leaven = "instant yeast";
    kitchen.add("");
    CHECK(kitchen.last().bake.facts.leaven == "instant yeast");
    kitchen.options = {};
    kitchen.options.formula = "plain";  // has no leaven at all
    kitchen.options.dough = Grams(900);
    kitchen.add("");
    CHECK_FALSE(kitchen.last().bake.facts.leaven);
}

}  // namespace loafmark::commands
