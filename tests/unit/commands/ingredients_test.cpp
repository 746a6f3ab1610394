#include "commands/ingredients.h"

#include "../journal/example_journal.h"
#include "catch.h"
#include "commands/failure.h"
#include "commands/messages.h"
#include "journal/amounts.h"

namespace loafmark::commands {
namespace {

std::string refusal(const Recipe& recipe, const journal::Journal& journal) {
    try {
        (void)ingredients_of(recipe, journal);
    } catch (const Failure& error) {
        return message_of(error);
    }
    return "accepted";
}

}  // namespace

TEST_CASE("an ingredient is written NAME=70%, and a name may hold an equals sign") {
    CHECK(parse_named_share("Strong white = 70%") == NamedShare{"Strong white", Fraction(0.7)});
    CHECK(parse_named_share("a=b=5%") == NamedShare{"a=b", Fraction(0.05)});
    CHECK(parse_named_mass("water=335g") == NamedMass{"water", Grams(335)});
    CHECK(parse_leaven("1%") == NamedShare{"yeast", Fraction(0.01)});
    CHECK(parse_leaven("fresh yeast=2%").name == "fresh yeast");
    const std::string bad = GENERATE("70%", "=70%", "white=", "white=70", "white=-1%");
    CHECK_THROWS_AS(parse_named_share(bad), std::runtime_error);
}

TEST_CASE("the flour and water of a starter count") {
    journal::ExampleJournal example;
    Recipe recipe;
    recipe.flours = {{"Strong white", Fraction(0.9)}};
    recipe.water = Fraction(0.62);
    recipe.starter = Fraction(0.2);
    const auto ingredients = ingredients_of(recipe, example.journal);
    REQUIRE(ingredients.size() == 3);
    CHECK(ingredients[2].flour == example.white.id);
    const auto figures = figures_of(journal::parts_of(ingredients));
    REQUIRE(figures);
    CHECK(figures->hydration.count() == Approx(0.72));
    CHECK(figures->prefermented_flour.count() == Approx(0.1));
}

TEST_CASE("three thirds of flour written with one decimal are all of it") {
    journal::ExampleJournal example;
    Recipe recipe;
    recipe.flours = {{"Strong white", Fraction(0.667)}, {"Wholemeal rye", Fraction(0.333)}};
    recipe.flours[0].share = Fraction(0.6667);
    const auto ingredients = ingredients_of(recipe, example.journal);
    CHECK(ingredients[0].share.count() + ingredients[1].share.count() == Approx(1).epsilon(1e-12));
}

TEST_CASE("a recipe that cannot be is refused with the reason") {
    journal::ExampleJournal example;
    Recipe recipe;
    CHECK(refusal(recipe, example.journal) ==
          "the flours add to 0 % (); all flour, the starter's included, must add to 100 %");
    recipe.flours = {{"Strong white", Fraction(0.5)}, {"Wholemeal rye", Fraction(0.4)}};
    recipe.starter = Fraction(0.2);
    CHECK(refusal(recipe, example.journal) ==
          "which flour is the starter fed with?; name it with --starter-flour NAME");
    recipe.starter_flour = "Wholemeal rye";
    CHECK(refusal(recipe, example.journal) == "accepted");
    recipe.water_in = {{"milk", Fraction(0.87)}};
    CHECK(refusal(recipe, example.journal) ==
          "--water-in names 'milk', which no --other does; write --other 'milk=20%' besides");
    recipe.others = {{"Milk", Fraction(0.2)}};
    CHECK(refusal(recipe, example.journal) == "accepted");
}

}  // namespace loafmark::commands
