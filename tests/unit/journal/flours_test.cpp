#include "catch.h"
#include "example_journal.h"

using namespace loafmark;
using namespace loafmark::journal;

TEST_CASE("a flour comes back as it was added, what is unknown stays unknown") {
    ExampleJournal example;
    NewFlour draft = new_flour("  Emmer ", "emmer");
    draft.grade = "wholemeal";
    draft.mill = "Brook Mill";
    draft.protein = Fraction(0.132);
    draft.protein_basis = ProteinBasis::mill_14_percent_moisture;
    const Flour emmer = example.journal.add_flour(draft);
    CHECK(emmer.name == "Emmer");
    CHECK(emmer.grade == "wholemeal");
    CHECK(emmer.protein == Fraction(0.132));
    CHECK(emmer.protein_basis == ProteinBasis::mill_14_percent_moisture);
    CHECK_FALSE(emmer.notes);
    CHECK(example.journal.flour(emmer.id) == emmer);
    CHECK_FALSE(example.white.protein);
}

TEST_CASE("flours are listed by name, whatever the case") {
    ExampleJournal example;
    (void)example.journal.add_flour(new_flour("emmer"));
    std::vector<std::string> names;
    for (const Flour& flour : example.journal.flours())
        names.push_back(flour.name);
    CHECK(names == std::vector<std::string>{"emmer", "Strong white", "Wholemeal rye"});
}

TEST_CASE("a flour's name may be given in any case or in part") {
    ExampleJournal example;
    CHECK(example.journal.flour("strong WHITE") == example.white);
    CHECK(example.journal.flour("rye") == example.rye);
    const Flour dark = example.journal.add_flour(new_flour("Dark rye", "rye"));
    CHECK(example.journal.flour("dark rye") == dark);
    const auto ambiguous = [&] { (void)example.journal.flour("rye"); };
    CHECK(message_of(ambiguous) == "several fit flour 'rye'");
    CHECK(suggestions_of(ambiguous) == std::vector<std::string>{"Dark rye", "Wholemeal rye"});
    const Flour plain = example.journal.add_flour(new_flour("Rye", "rye"));
    CHECK(example.journal.flour("rye") == plain);
}

TEST_CASE("an unknown flour is told with near names") {
    ExampleJournal example;
    const auto near_miss = [&] { (void)example.journal.flour("strnog whit"); };
    CHECK(message_of(near_miss) == "there is no flour 'strnog whit'");
    CHECK(suggestions_of(near_miss) == std::vector<std::string>{"Strong white"});
    CHECK(suggestions_of([&] { (void)example.journal.flour("barley"); }).empty());
    CHECK_THROWS_AS(example.journal.flour(FlourId{99}), NotFound);
    CHECK_THROWS_AS(example.journal.flour(""), NotFound);
}

TEST_CASE("a second flour of the same name is refused, beyond ASCII too") {
    ExampleJournal example;
    CHECK(message_of([&] { (void)example.journal.add_flour(new_flour("strong  White")); }) ==
          "there is a flour 'Strong white' already");
    (void)example.journal.add_flour(new_flour("R\u00f6ggen"));
    CHECK_THROWS_AS(example.journal.add_flour(new_flour("R\u00d6GGEN")), Error);
    CHECK(example.journal.flours().size() == 3);
}

TEST_CASE("a flour without a name or with an impossible protein content is refused") {
    ExampleJournal example;
    CHECK(message_of([&] { (void)example.journal.add_flour(new_flour("  ")); }) ==
          "the flour's name is empty");
    NewFlour draft = new_flour("Gluten");
    draft.protein = Fraction(12);
    CHECK(message_of([&] { (void)example.journal.add_flour(draft); }) ==
          "the protein content of 'Gluten' is 1200%, not within 0 to 100%");
    CHECK(example.journal.flours().size() == 2);
}

TEST_CASE("a bag comes back as it was added, full unless said otherwise") {
    ExampleJournal example;
    NewBag draft;
    draft.flour = example.white.id;
    draft.lot = "L123";
    draft.bought = Date{2026, 2, 20};
    draft.best_before = Date{2026, 12, 31};
    draft.bought_mass = Grams(5000);
    draft.protein = Fraction(0.126);
    draft.protein_basis = ProteinBasis::pack_eu;
    const Bag bag = example.journal.add_bag(draft);
    CHECK(bag.lot == "L123");
    CHECK(bag.bought == Date{2026, 2, 20});
    CHECK(bag.left == Grams(5000));
    CHECK_FALSE(bag.opened);
    CHECK(example.journal.bags(example.white.id) == std::vector{bag});
    CHECK(example.journal.bags(example.rye.id).empty());
}

TEST_CASE("a bag of no flour, of a day that does not exist or of negative mass is refused") {
    ExampleJournal example;
    NewBag draft;
    draft.flour = FlourId{99};
    CHECK_THROWS_AS(example.journal.add_bag(draft), NotFound);
    draft.flour = example.white.id;
    draft.bought = Date{2026, 2, 30};
    CHECK_THROWS_AS(example.journal.add_bag(draft), Error);
    draft.bought.reset();
    draft.left = Grams(-1);
    CHECK(message_of([&] { (void)example.journal.add_bag(draft); }) ==
          "the mass left is -1g, below zero");
    CHECK(example.journal.bags(example.white.id).empty());
}
