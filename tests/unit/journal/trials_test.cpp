#include <SQLiteCpp/Statement.h>

#include "catch.h"
#include "example_journal.h"
#include "journal/database.h"
#include "journal/schema.h"

using namespace loafmark;
using namespace loafmark::journal;

namespace {

NewTrial flour_trial() {
    NewTrial trial;
    trial.name = "Which flour";
    trial.question = "each at its best";
    trial.variants = {"Strong white", "Ölandsvete"};
    trial.settings = {
        {"tin", "held", {}}, {"water", "fitted", "equal handling"}, {"proof", "free", {}}};
    return trial;
}

}  // namespace

TEST_CASE("a trial comes back as it was given, and is found by number, name or part of it") {
    ExampleJournal example;
    const Trial added = example.journal.add_trial(flour_trial());
    CHECK(added.variants == std::vector<std::string>{"Strong white", "Ölandsvete"});
    CHECK(added.settings.size() == 3);
    CHECK(example.journal.trial("1") == added);
    CHECK(example.journal.trial("WHICH flour") == added);
    CHECK(example.journal.trial("which") == added);
    CHECK(example.journal.trials().size() == 1);
    CHECK_THROWS_AS(example.journal.trial("2"), NotFound);
    CHECK_THROWS_AS(example.journal.trial("rye"), NotFound);
    CHECK(message_of([&] { (void)example.journal.add_trial(flour_trial()); }) ==
          "there is a trial 'Which flour' already");
}

TEST_CASE("bakes join a trial once, and may change their variant") {
    ExampleJournal example;
    const Trial trial = example.journal.add_trial(flour_trial());
    const BakeEntry bake = example.journal.add_bake(new_bake(example.formula, {2026, 3, 1}));
    (void)example.journal.add_to_trial(trial.id, {{bake.bake.id, 0}});
    const Trial moved = example.journal.add_to_trial(trial.id, {{bake.bake.id, 1}});
    CHECK(moved.bakes == std::vector<TrialBake>{{bake.bake.id, 1}});
    CHECK_THROWS_AS(example.journal.add_to_trial(trial.id, {{bake.bake.id, 2}}), Error);
    CHECK_THROWS_AS(example.journal.add_to_trial(trial.id, {{{99}, 0}}), NotFound);
    // All or none.
    CHECK_THROWS_AS(example.journal.add_to_trial(trial.id, {{bake.bake.id, 0}, {{99}, 0}}),
                    NotFound);
    CHECK(example.journal.trial("1").bakes == moved.bakes);
}

TEST_CASE("what makes no trial is refused with the reason") {
    ExampleJournal example;
    const auto refusal = [&](auto change) {
        NewTrial trial = flour_trial();
        change(trial);
        return message_of([&] { (void)example.journal.add_trial(trial); });
    };
    CHECK(refusal([](NewTrial& t) { t.name = " "; }) == "the trial's name is empty");
    CHECK(refusal([](NewTrial& t) { t.variants.pop_back(); }) ==
          "a trial wants a control and at least one variant");
    CHECK(refusal([](NewTrial& t) { t.variants.push_back("STRONG white"); }) ==
          "two variants are called 'STRONG white'");
    CHECK(refusal([](NewTrial& t) {
              t.settings.push_back({"flour", "held", {}});
          }) == "'flour' is what the trial varies, and cannot be held");
    CHECK(refusal([](NewTrial& t) {
              t.settings.push_back({"tin", "free", {}});
          }) == "'tin' is named twice");
    CHECK(refusal([](NewTrial& t) { t.settings[1].rule.reset(); }) ==
          "'water' is fitted, but by no rule");
    CHECK(refusal([](NewTrial& t) {
              t.factor = "weather";
          }).starts_with("a trial's factor is one of flour, water"));
    CHECK(example.journal.trials().empty());
}

TEST_CASE("tastings come back, all or none, and nonsense is refused") {
    ExampleJournal example;
    const BakeEntry bake = example.journal.add_bake(new_bake(example.formula, {2026, 3, 1}));
    NewTasting tasting;
    tasting.bake = bake.bake.id;
    tasting.taster = "Zoë";
    tasting.date = {2026, 3, 2};
    tasting.since_oven = Hours(20);
    tasting.kept = "paper bag";
    tasting.scores.lines = {{"soft-firm", 3}, {"crust", 10}};
    tasting.scores.liking = 7.5;
    tasting.scores.words = "good for soup \U0001F372";
    (void)example.journal.add_tastings({tasting});
    const auto kept = example.journal.tastings();
    REQUIRE(kept.size() == 1);
    CHECK(kept[0].scores == tasting.scores);
    CHECK(kept[0].taster == "Zoë");
    CHECK(kept[0].since_oven == Hours(20));
    CHECK(kept[0].scored);
    NewTasting wrong = tasting;
    wrong.scores.lines["soft-firm"] = 11;
    CHECK(message_of([&] {
              (void)example.journal.add_tastings({tasting, wrong});
          }) == "the score of soft-firm is 11, not within 0 to 10");
    wrong = tasting;
    wrong.scores = {};
    CHECK(message_of([&] { (void)example.journal.add_tastings({wrong}); }) ==
          "a tasting without any score or word says nothing");
    wrong = tasting;
    wrong.loaf = 2;
    CHECK_THROWS_AS(example.journal.add_tastings({wrong}), NotFound);
    CHECK(example.journal.tastings().size() == 1);
}

TEST_CASE("a blind sitting is over when every slice has its scores, each once") {
    ExampleJournal example;
    const BakeEntry bake = example.journal.add_bake(new_bake(example.formula, {2026, 3, 1}));
    NewSitting sitting;
    sitting.date = {2026, 3, 1};
    sitting.seed = 7;
    sitting.servings = {{bake.bake.id, 1, "Ada", 1, 417, {}, {}},
                        {bake.bake.id, 1, "Ada", 2, 230, {}, {}}};
    const Sitting begun = example.journal.add_sitting(sitting);
    CHECK_FALSE(begun.over());
    REQUIRE(begun.tastings.size() == 2);
    CHECK(begun.tastings[0].code == 417);
    TasteScores scores;
    scores.lines["soft-firm"] = 4;
    (void)example.journal.score_serving(begun.tastings[0].id, scores);
    CHECK_THROWS_AS(example.journal.score_serving(begun.tastings[0].id, scores), Error);
    CHECK_FALSE(example.journal.sitting(begun.id).over());
    (void)example.journal.score_serving(begun.tastings[1].id, scores);
    CHECK(example.journal.sitting(begun.id).over());
    sitting.servings[1].code = 417;
    CHECK_THROWS_AS(example.journal.add_sitting(sitting), Error);
    CHECK_THROWS_AS(example.journal.sitting({9}), NotFound);
}

TEST_CASE("a journal without trials gains them, and keeps its bakes") {
    TemporaryFolder folder;
    const Environment environment = fixed_environment();
    std::size_t before_trials = 0;
    for (const char* step : migrations()) {
        if (std::string(step).find("CREATE TABLE trial (") != std::string::npos) break;
        ++before_trials;
    }
    REQUIRE(before_trials < migrations().size());
    {
        SQLite::Database db = open_to_write(folder / "loafmark.db", std::chrono::milliseconds(0));
        Store store(db, environment);
        migrate(store, migrations().first(before_trials));
        CHECK_FALSE(db.tableExists("trial"));
    }
    Journal journal = Journal::open(folder.path(), environment);
    CHECK(journal.trials().empty());
    CHECK(journal.tastings().empty());
    (void)journal.add_trial(flour_trial());
}
