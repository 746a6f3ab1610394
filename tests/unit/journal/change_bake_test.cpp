#include "catch.h"
#include "example_journal.h"

using namespace loafmark;
using namespace loafmark::journal;

namespace {
BakeId plain_bake(ExampleJournal& example) {
    NewBake draft;
    draft.date = {2026, 3, 1};
    draft.formula_version = example.formula.id;
    draft.dough_mass = Grams(840);
    draft.facts.leaven = "instant yeast";
    return example.journal.add_bake(draft).bake.id;
}
}  // namespace

TEST_CASE("a bake's facts are filled in one by one, and none is lost") {
    ExampleJournal example;
    const BakeId id = plain_bake(example);
    BakeChange change;
    change.handling = "tacky";
    change.facts.folds = 3;
    change.facts.water_temperature = Celsius(28);
    change.room_temperature = Celsius(21);
    const Bake bake = example.journal.change_bake(id, change).bake;
    CHECK(bake.facts.leaven == "instant yeast");
    CHECK(bake.facts.folds == 3);
    CHECK(bake.facts.water_temperature == Celsius(28));
    CHECK(bake.handling == "tacky");
    CHECK(bake.room_temperature == Celsius(21));
    CHECK_FALSE(bake.facts.held_shape);
}

TEST_CASE("what was mixed may be put right, and the hydration follows") {
    ExampleJournal example;
    const BakeId id = plain_bake(example);
    BakeChange change;
    change.mixed = example.journal.bake(id).bake.mixed;
    change.mixed->back().mass = Grams(375);
    CHECK(example.journal.change_bake(id, change).hydration->count() == Approx(0.75));
    change.mixed->back().mass = Grams(-1);
    CHECK_THROWS_AS(example.journal.change_bake(id, change), Error);
    CHECK(example.journal.bake(id).hydration->count() == Approx(0.75));
}

TEST_CASE("a loaf is noted by its number; a core of more than 100 C is refused") {
    ExampleJournal example;
    const BakeId id = plain_bake(example);
    LoafChange change;
    change.baked_mass = Grams(731);
    change.facts.dent = "slowly";
    change.facts.core_temperature = Celsius(96);
    const Loaf loaf = example.journal.change_loaf(id, 1, change).loaves[0].loaf;
    CHECK(loaf.baked_mass == Grams(731));
    CHECK(loaf.facts.dent == "slowly");
    CHECK(loaf.facts.core_temperature == Celsius(96));
    CHECK_FALSE(loaf.facts.proof);
    change.facts.core_temperature = Celsius(205);
    CHECK(message_of([&] { (void)example.journal.change_loaf(id, 1, change); }) ==
          "the core temperature of 205C cannot be: a core never passes 100C");
    CHECK(message_of([&] { (void)example.journal.change_loaf(id, 2, {}); }) ==
          "bake 1 has no loaf 2");
}

TEST_CASE("a loaf may be proved otherwise than its dough, and is found by it") {
    ExampleJournal example;
    const BakeId id = plain_bake(example);
    BakeStep step;
    step.step = "final proof";
    step.lasted = Minutes(60);
    (void)example.journal.add_step(id, step);
    const auto proved = [&](const char* range) {
        Filter filter;
        filter.where = {parse_condition(range)};
        return example.journal.find(filter).size();
    };
    CHECK(proved("proof 60..60") == 1);
    step.lasted.reset();
    (void)example.journal.add_step(id, step);
    CHECK(proved("proof 0..") == 0);  // how long the second step took is not known
    LoafChange change;
    change.facts.proof = Minutes(90);
    change.facts.proof_temperature = Celsius(26);
    const LoafFacts facts = example.journal.change_loaf(id, 1, change).loaves[0].loaf.facts;
    CHECK(facts.proof == Minutes(90));
    CHECK(facts.proof_temperature == Celsius(26));
    CHECK(proved("proof 60..60") == 0);
    CHECK(proved("proof 90..90") == 1);
    change.facts.proof = Minutes(0);
    CHECK(message_of([&] { (void)example.journal.change_loaf(id, 1, change); }) ==
          "the proof is not more than nothing");
}

TEST_CASE("steps come back in the order they were marked, and may come again") {
    ExampleJournal example;
    const BakeId id = plain_bake(example);
    for (const char* step : {"mix", "fold", "fold"}) {
        BakeStep marked;
        marked.step = step;
        marked.began = "2026-03-01 09:00";
        (void)example.journal.add_step(id, marked);
    }
    const auto steps = example.journal.bake(id).bake.steps;
    REQUIRE(steps.size() == 3);
    CHECK(steps[2].step == "fold");
    CHECK(steps[2].began == "2026-03-01 09:00");
    BakeStep unknown;
    unknown.step = "sing";
    CHECK_THROWS_AS(example.journal.add_step(id, unknown), Error);
}

TEST_CASE("several bakes are added all or none") {
    ExampleJournal example;
    NewBake good;
    good.date = {2026, 3, 1};
    good.formula_version = example.formula.id;
    good.dough_mass = Grams(840);
    NewBake bad = good;
    bad.handling = "wet";
    CHECK_THROWS_AS(example.journal.add_bakes({good, bad}), Error);
    CHECK(example.journal.find().empty());
    CHECK(example.journal.add_bakes({good, good}).size() == 2);
}
