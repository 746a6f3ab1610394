#include "commands/taste.h"

#include <set>

#include "catch.h"
#include "commands/failure.h"
#include "fakes.h"

namespace loafmark::commands {
namespace {

bool holds(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

struct Tasted {
    journal::ExampleJournal example;
    FakeWorld world;
    TasteOptions options;

    explicit Tasted(std::vector<std::string> tasters) {
        (void)example.journal.add_bake(journal::new_bake(example.formula, {2026, 3, 5}, "One"));
        (void)example.journal.add_bake(journal::new_bake(example.formula, {2026, 3, 5}, "Two"));
        journal::KitchenChange kitchen;
        kitchen.tasters = std::move(tasters);
        (void)example.journal.change_kitchen(kitchen);
        options.bakes = {"One"};
    }
    void taste() { (void)run(options, example.journal, world.context()); }
};

}  // namespace

TEST_CASE("the kitchen's only taster need not be named") {
    Tasted tasted({"Ada"});
    tasted.options.scores.liking = 7;
    tasted.taste();
    CHECK(tasted.example.journal.tastings().at(0).taster == "Ada");
    CHECK(holds(tasted.world.out.str(), "Taster: Ada, the kitchen's only one."));
    tasted.options.tasters = {"Ben"};
    tasted.taste();
    CHECK(tasted.example.journal.tastings().at(1).taster == "Ben");
}

TEST_CASE("of several tasters one is named, and they are told") {
    Tasted tasted({"Ada", "Ben"});
    tasted.options.scores.liking = 7;
    try {
        tasted.taste();
        FAIL("it was kept");
    } catch (const UsageError& error) {
        CHECK(error.remedy() == "write --taster NAME (Ada, Ben)");
    }
}

TEST_CASE("a tasting is asked line by line, and an answer that is no place is asked again") {
    Tasted tasted({"Ada", "Ben"});
    tasted.world.type("Ben\nyes\n11\n3\n" + std::string(journal::tasting_lines.size() - 1, '\n') +
                      "8\ngood for soup\n");
    tasted.taste();
    const journal::Tasting tasting = tasted.example.journal.tastings().at(0);
    CHECK(tasting.taster == "Ben");
    CHECK(tasting.scores.lines.size() == 1);
    CHECK(tasting.scores.liking == 8);
    CHECK(tasting.scores.words == "good for soup");
    CHECK(holds(tasted.world.err.str(), "Who tastes? (Ada, Ben)"));
    CHECK(holds(tasted.world.err.str(), "'11' is no place on the line; write 0 to 10"));
}

TEST_CASE("a tasting of which nothing is said is asked again") {
    Tasted tasted({"Ada"});
    const std::string nothing(journal::tasting_lines.size() + 2, '\n');
    tasted.world.type("yes\n" + nothing + nothing.substr(1) + "good toasted\n");
    tasted.taste();
    CHECK(tasted.example.journal.tastings().at(0).scores.words == "good toasted");
    CHECK(holds(tasted.world.err.str(), "one score or word is wanted"));
}

TEST_CASE("answers that end leave no tasting, and no terminal no question") {
    Tasted tasted({"Ada"});
    CHECK_THROWS_AS(tasted.taste(), Failure);  // no terminal
    tasted.world.type("yes\n3\n");
    CHECK_THROWS_AS(tasted.taste(), Failure);
    CHECK(tasted.example.journal.tastings().empty());
}

TEST_CASE("a blind sitting is of the kitchen's tasters unless others are named, and goes on") {
    Tasted tasted({"Ada", "Ben"});
    tasted.options.bakes = {"One", "Two"};
    tasted.options.blind = true;
    tasted.options.seed = 7;
    tasted.options.key = (tasted.example.folder / "key.txt").string();
    // Ada scores her first slice and goes.
    tasted.world.type("yes\n3\n" + std::string(journal::tasting_lines.size() - 1, '\n') + "8\n\n");
    CHECK_THROWS_AS(tasted.taste(), Failure);
    const journal::Sitting sitting = tasted.example.journal.sitting(journal::SittingId{1});
    std::set<std::string> tasters;
    int scored = 0;
    for (const journal::Tasting& tasting : sitting.tastings) {
        tasters.insert(tasting.taster);
        scored += tasting.scored ? 1 : 0;
    }
    CHECK(tasters == std::set<std::string>{"Ada", "Ben"});
    CHECK(scored == 1);
}

}  // namespace loafmark::commands
