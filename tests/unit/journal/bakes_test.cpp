#include "catch.h"
#include "example_journal.h"

using namespace loafmark;
using namespace loafmark::journal;

namespace {
constexpr Date today{2026, 11, 25};
constexpr Date first_of_march{2026, 3, 1};
}  // namespace

TEST_CASE("a bake draws what was mixed from its formula") {
    ExampleJournal example;
    const BakeEntry entry = example.journal.add_bake(new_bake(example.formula, first_of_march));
    CHECK(entry.bake.title == "Plain loaf");
    CHECK(entry.bake.date == first_of_march);
    CHECK(entry.formula_name == "Plain loaf");
    CHECK(entry.formula_version == 1);
    REQUIRE(entry.bake.mixed.size() == 2);
    CHECK(entry.bake.mixed[0].mass.count() == Approx(900 / 1.68));
    CHECK(entry.bake.mixed[1].mass.count() == Approx(900 * 0.68 / 1.68));
    CHECK(entry.hydration.value().count() == Approx(0.68));
    REQUIRE(entry.loaves.size() == 1);
    CHECK(entry.loaves[0].loaf.number == 1);
    CHECK_FALSE(entry.loaves[0].loaf.baked_mass);
    CHECK(entry.loaves[0].slices.empty());
    CHECK(example.journal.bake(entry.bake.id) == entry);
}

TEST_CASE("a bake comes back with all that was said of it") {
    ExampleJournal example;
    NewBake draft = new_bake(example.formula, first_of_march, "  Sunday loaves ");
    draft.dough_mass.reset();
    draft.loaves = {
        {.tin = "2 lb", .free_form = false, .dough_mass = Grams(900), .baked_mass = {}},
        {.tin = {}, .free_form = true, .dough_mass = Grams(500), .baked_mass = Grams(435)}};
    draft.room_temperature = Celsius(22.5);
    draft.dough_temperature = Celsius(25);
    draft.handling = "tacky";
    draft.notes = "steam late";
    draft.set_aside = "forgot the salt";
    const BakeEntry entry = example.journal.add_bake(draft);
    CHECK(entry.bake.title == "Sunday loaves");
    CHECK(entry.bake.room_temperature == Celsius(22.5));
    CHECK(entry.bake.dough_temperature == Celsius(25));
    CHECK(entry.bake.handling == "tacky");
    CHECK(entry.bake.notes == "steam late");
    CHECK(entry.bake.set_aside == "forgot the salt");
    REQUIRE(entry.loaves.size() == 2);
    CHECK(entry.loaves[0].loaf.tin == "2 lb");
    CHECK(entry.loaves[0].loaf.free_form == false);
    CHECK(entry.loaves[1].loaf.number == 2);
    CHECK_FALSE(entry.loaves[1].loaf.tin);
    CHECK(entry.loaves[1].loaf.free_form == true);
    CHECK(entry.loaves[1].loaf.baked_mass == Grams(435));
    // Dough of both loaves was mixed.
    CHECK((entry.bake.mixed[0].mass + entry.bake.mixed[1].mass).count() == Approx(1400));
}

// 900 g flour in the bowl, 650 g water, 200 g starter at 100 %: (650 + 100) / (900 + 100) = 75 %.
TEST_CASE("hydration and shares of flour are those of what was mixed") {
    ExampleJournal example;
    NewBake draft = new_bake(example.formula, first_of_march);
    const auto amount = [](const Ingredient& line, double grams) {
        return MixedAmount{line.kind,    line.name,           line.flour,         std::nullopt,
                           Grams(grams), line.water_fraction, line.flour_fraction};
    };
    draft.mixed = {amount(flour_line(example.white, 1), 300),
                   amount(flour_line(example.rye, 1), 600), amount(water_line(1), 650),
                   amount(starter_line(example.rye, 1), 200), amount(salt_line(1), 20)};
    const BakeEntry entry = example.journal.add_bake(draft);
    CHECK(entry.hydration.value().count() == Approx(0.75));
    REQUIRE(entry.flours.size() == 2);
    CHECK(entry.flours[0].flour == example.rye.id);
    CHECK(entry.flours[0].name == "Wholemeal rye");
    CHECK(entry.flours[0].grain == "rye");
    CHECK(entry.flours[0].share.count() == Approx(0.7));
    CHECK(entry.flours[1].share.count() == Approx(0.3));
    CHECK(entry.bake.mixed == draft.mixed);
}

TEST_CASE("a bag's own protein content goes before its flour's") {
    ExampleJournal example;
    NewFlour with_protein = new_flour("Emmer");
    with_protein.protein = Fraction(0.12);
    const Flour emmer = example.journal.add_flour(with_protein);
    NewBag bag;
    bag.flour = emmer.id;
    bag.protein = Fraction(0.135);
    const FormulaVersion formula = plain_formula(example.journal, "Emmer", emmer, 0.7);
    NewBake draft = new_bake(formula, first_of_march);
    CHECK(example.journal.add_bake(draft).flours[0].protein == Fraction(0.12));
    const BagId bag_id = example.journal.add_bag(bag).id;
    draft.mixed = example.journal.add_bake(draft).bake.mixed;
    draft.mixed[0].bag = bag_id;
    CHECK(example.journal.add_bake(draft).flours[0].protein == Fraction(0.135));
}

TEST_CASE("bakes of one day share their bake day") {
    ExampleJournal example;
    NewBake draft = new_bake(example.formula, first_of_march);
    const BakeEntry first = example.journal.add_bake(draft);
    CHECK_FALSE(first.bake.room_temperature);
    draft.room_temperature = Celsius(22);
    const BakeEntry second = example.journal.add_bake(draft);
    CHECK(second.bake.day == first.bake.day);
    CHECK(example.journal.bake(first.bake.id).bake.room_temperature == Celsius(22));
    draft.room_temperature = Celsius(25);
    CHECK(message_of([&] { (void)example.journal.add_bake(draft); }) ==
          "the bake day of 2026-03-01 has a room temperature of 22C already, not 25C");
    draft.date = {2026, 3, 2};
    CHECK(example.journal.add_bake(draft).bake.day != first.bake.day);
}

TEST_CASE("a bake that cannot be is refused and leaves nothing") {
    ExampleJournal example;
    const auto refusal = [&](const NewBake& draft) {
        return message_of([&] { (void)example.journal.add_bake(draft); });
    };
    NewBake draft = new_bake(example.formula, first_of_march);
    draft.dough_mass.reset();
    CHECK(refusal(draft) == "neither the dough's mass nor what was mixed is given");
    draft = new_bake(example.formula, {2026, 2, 30});
    CHECK(refusal(draft) == "the bake's date 2026-02-30 is not a day of the calendar");
    draft = new_bake(example.formula, first_of_march);
    draft.handling = "sticky";
    CHECK(refusal(draft) ==
          "the handling is one of stiff, firm, supple, tacky, slack, pours, not 'sticky'");
    draft.handling.reset();
    draft.loaves = {{.tin = {}, .free_form = {}, .dough_mass = {}, .baked_mass = Grams(-5)}};
    CHECK(refusal(draft) == "a loaf's baked mass is -5g, below zero");
    draft.loaves.clear();
    draft.formula_version = FormulaVersionId{99};
    CHECK(refusal(draft) == "there is no formula version 99");
    NewBag bag;
    bag.flour = example.rye.id;
    draft = new_bake(example.formula, first_of_march);
    draft.mixed = example.journal.add_bake(draft).bake.mixed;
    draft.date = {2026, 3, 5};
    draft.mixed[0].bag = example.journal.add_bag(bag).id;
    CHECK(refusal(draft) == "bag 1 holds another flour than 'Strong white'");
    draft.mixed[0].bag = BagId{99};
    CHECK(refusal(draft) == "there is no bag 99");
    CHECK(example.journal.find().size() == 1);
    CHECK_THROWS_AS(example.journal.find_bake("2026-03-05", today), NotFound);
}

TEST_CASE("BAKE is last, a number, a date or part of a title") {
    ExampleJournal example;
    const auto add = [&](Date date, const std::string& title) {
        return example.journal.add_bake(new_bake(example.formula, date, title)).bake.id;
    };
    const auto find = [&](std::string_view text) { return example.journal.find_bake(text, today); };
    CHECK(message_of([&] { (void)find("last"); }) == "the journal has no bakes yet");
    const BakeId white = add({2026, 3, 1}, "White tin");
    const BakeId rye = add({2026, 3, 3}, "Rye R\u00d6GGEN");
    const BakeId spelt = add({2026, 3, 2}, "Spelt");
    CHECK(find("last") == spelt);
    CHECK(find("LAST") == spelt);
    CHECK(find("last-0") == spelt);
    CHECK(find("last-2") == white);
    CHECK(message_of([&] { (void)find("last-3"); }) ==
          "there is no bake 'last-3'; the journal has 3");
    CHECK(find(std::to_string(rye.value)) == rye);
    CHECK(find("2026-03-01") == white);
    CHECK(find("3 March") == rye);
    CHECK(find("tin") == white);
    CHECK(find("r\u00f6ggen") == rye);
    const auto near_miss = [&] { (void)find("splet"); };
    CHECK(message_of(near_miss) == "there is no bake 'splet'");
    CHECK(suggestions_of(near_miss) == std::vector<std::string>{"Spelt"});
    CHECK_THROWS_AS(find("99"), NotFound);
    CHECK_THROWS_AS(find("-1"), NotFound);
    CHECK_THROWS_AS(find(""), NotFound);
    CHECK_THROWS_AS(find("4 March"), NotFound);
}

TEST_CASE("where several bakes fit they are listed, and a whole title goes before parts") {
    ExampleJournal example;
    const auto add = [&](Date date, const std::string& title) {
        return example.journal.add_bake(new_bake(example.formula, date, title)).bake.id;
    };
    (void)add({2026, 3, 1}, "White tin");
    (void)add({2026, 3, 1}, "White tin, wetter");
    const auto by_day = [&] { (void)example.journal.find_bake("1 March", today); };
    CHECK(message_of(by_day) == "several bakes fit '1 March'");
    CHECK(suggestions_of(by_day) ==
          std::vector<std::string>{"1: 2026-03-01 White tin", "2: 2026-03-01 White tin, wetter"});
    CHECK_THROWS_AS(example.journal.find_bake("white", today), NotFound);
    CHECK(example.journal.find_bake("white tin", today) == BakeId{1});
    CHECK(example.journal.find_bake("wetter", today) == BakeId{2});
}
