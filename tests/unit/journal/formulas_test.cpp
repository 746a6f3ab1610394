#include "catch.h"
#include "example_journal.h"

using namespace loafmark;
using namespace loafmark::journal;

namespace {
NewFormulaVersion country(const ExampleJournal& example) {
    return {{flour_line(example.white, 0.7), flour_line(example.rye, 0.2), water_line(0.62),
             starter_line(example.rye, 0.2), salt_line(0.02)},
            "dense in winter"};
}
}  // namespace

TEST_CASE("a formula comes back as it was added") {
    ExampleJournal example;
    const NewFormulaVersion draft = country(example);
    const FormulaVersion formula = example.journal.add_formula("Country", draft);
    CHECK(formula.name == "Country");
    CHECK(formula.version == 1);
    CHECK(formula.ingredients == draft.ingredients);
    CHECK(formula.notes == "dense in winter");
    CHECK(example.journal.formula("country") == formula);
    CHECK(example.journal.formula(formula.id) == formula);
}

TEST_CASE("a change of a formula is a new version, and the old one stays") {
    ExampleJournal example;
    const FormulaVersion first = example.journal.add_formula("Country", country(example));
    NewFormulaVersion wetter = country(example);
    wetter.ingredients[2].share = Fraction(0.66);
    const FormulaVersion second = example.journal.add_formula_version(first.formula, wetter);
    CHECK(second.version == 2);
    CHECK(second.formula == first.formula);
    CHECK(example.journal.formula("Country") == second);
    CHECK(example.journal.formula(first.id) == first);
    CHECK(example.journal.formula_versions(first.formula) == std::vector{first, second});
    std::vector<std::string> listed;
    for (const FormulaVersion& formula : example.journal.formulas())
        listed.push_back(formula.name + " " + std::to_string(formula.version));
    CHECK(listed == std::vector<std::string>{"Country 2", "Plain loaf 1"});
}

TEST_CASE("an unknown formula is told with near names") {
    ExampleJournal example;
    const auto near_miss = [&] { (void)example.journal.formula("plain laof"); };
    CHECK(message_of(near_miss) == "there is no formula 'plain laof'");
    CHECK(suggestions_of(near_miss) == std::vector<std::string>{"Plain loaf"});
    CHECK_THROWS_AS(example.journal.formula(FormulaVersionId{99}), NotFound);
    CHECK_THROWS_AS(example.journal.formula_versions(FormulaId{99}), NotFound);
    CHECK_THROWS_AS(example.journal.add_formula_version(FormulaId{99}, country(example)), NotFound);
}

TEST_CASE("a formula that does not add up is refused with the reason") {
    ExampleJournal example;
    const auto refusal = [&](const NewFormulaVersion& draft) {
        return message_of([&] { (void)example.journal.add_formula("Country", draft); });
    };
    NewFormulaVersion draft = country(example);
    draft.ingredients[0].share = Fraction(0.8);
    CHECK(refusal(draft) ==
          "the formula's flour, that in a starter included, makes 110% instead of 100%");
    CHECK(refusal({{water_line(1)}, {}}) == "the formula has no flour");
    CHECK(refusal({}) == "the formula has no flour");
    draft = country(example);
    draft.ingredients[0].flour.reset();
    CHECK(refusal(draft) ==
          "'Strong white' is a flour but stands for none of the journal's flours");
    draft = country(example);
    draft.ingredients[4].share = Fraction(-0.02);
    CHECK(refusal(draft) == "the share of 'Salt' is -2%, below zero");
    draft = country(example);
    draft.ingredients[3].water_fraction = Fraction(0.6);
    CHECK(refusal(draft) == "water and flour in 'Starter' together are more than it weighs");
    draft = country(example);
    draft.ingredients[1].flour = FlourId{99};
    CHECK(refusal(draft) == "there is no flour 99");
    CHECK(example.journal.formulas().size() == 1);
}

TEST_CASE("a second formula of the same name is refused") {
    ExampleJournal example;
    CHECK(message_of([&] {
              (void)plain_formula(example.journal, "PLAIN loaf", example.white, 0.7);
          }) == "there is a formula 'Plain loaf' already");
    CHECK(message_of([&] { (void)plain_formula(example.journal, "", example.white, 0.7); }) ==
          "the formula's name is empty");
}
