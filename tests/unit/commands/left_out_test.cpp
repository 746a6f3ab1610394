#include "commands/left_out.h"

#include "catch.h"
#include "commands/compare.h"
#include "commands/next.h"
#include "fakes.h"

namespace loafmark::commands {
namespace {

bool holds(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

// Five bakes of white flour at five waters, one of rye.
struct SixBakes {
    journal::ExampleJournal example;
    FakeWorld world;
    std::vector<journal::BakeEntry> white;
    journal::BakeEntry rye;

    SixBakes() {
        for (int i = 0; i < 5; ++i)
            white.push_back(add("White " + std::to_string(i), example.white, 0.6 + 0.04 * i));
        rye = add("Rye", example.rye, 0.7);
    }
    journal::BakeEntry add(const std::string& name, const journal::Flour& flour, double water) {
        const auto formula = journal::plain_formula(example.journal, name, flour, water);
        const auto bake = example.journal.add_bake(journal::new_bake(formula, {2026, 3, 1}));
        (void)example.journal.file_photo(
            example.photo(name + ".jpg", name),
            {journal::new_slice(bake.loaves[0].loaf.id, journal::new_reading(0.3))});
        return bake;
    }
    std::string next() {
        NextOptions options;
        options.flour = example.white.name;
        options.want = parse_goal("openness 0.4");
        FakeWorld asked;
        (void)run(options, example.journal, asked.context());
        return asked.out.str();
    }
    std::string compare(const CompareOptions& options) {
        FakeWorld asked;
        (void)run(options, example.journal, asked.context());
        return asked.out.str();
    }
};

}  // namespace

TEST_CASE("next tells of the flour's bakes that are set aside or in the bin, and of no others") {
    SixBakes bakes;
    (void)bakes.example.journal.drop(journal::Droppable::bake, bakes.rye.bake.id.value);
    CHECK_FALSE(holds(bakes.next(), "left out"));
    (void)bakes.example.journal.set_aside(bakes.white[0].bake.id, "no salt");
    CHECK(holds(bakes.next(), "Note: left out: 1 bake set aside.\n"));
    (void)bakes.example.journal.drop(journal::Droppable::bake, bakes.white[1].bake.id.value);
    (void)bakes.example.journal.drop(journal::Droppable::bake, bakes.white[2].bake.id.value);
    CHECK(holds(bakes.next(), "Note: left out: 1 bake set aside, 2 in the bin.\n"));
    (void)bakes.example.journal.set_aside(bakes.white[0].bake.id, std::nullopt);
    CHECK(holds(bakes.next(), "Note: left out: 2 bakes in the bin.\n"));
}

TEST_CASE("compare tells of a trial's bakes and of repeats that are set aside or in the bin") {
    SixBakes bakes;
    journal::NewTrial draft;
    draft.name = "How wet";
    draft.variants = {"drier", "wetter"};
    const auto trial = bakes.example.journal.add_trial(draft);
    (void)bakes.example.journal.add_to_trial(trial.id, {{bakes.white[0].bake.id, 0},
                                                        {bakes.white[1].bake.id, 1},
                                                        {bakes.white[2].bake.id, 1},
                                                        {bakes.white[3].bake.id, 0}});
    CompareOptions of_trial;
    of_trial.trial = "wet";
    CHECK_FALSE(holds(bakes.compare(of_trial), "left out"));
    (void)bakes.example.journal.set_aside(bakes.white[4].bake.id, "not of the trial");
    (void)bakes.example.journal.set_aside(bakes.white[2].bake.id, "no salt");
    (void)bakes.example.journal.drop(journal::Droppable::bake, bakes.white[3].bake.id.value);
    CHECK(holds(bakes.compare(of_trial), "Note: left out: 1 bake set aside, 1 in the bin."));

    CompareOptions by_name;
    by_name.bakes = {"White 0", "White 1"};
    const auto repeat = bakes.example.journal.add_bake(
        journal::new_bake(bakes.example.journal.formula("White 1"), {2026, 3, 2}, "Again"));
    (void)bakes.example.journal.set_aside(repeat.bake.id, "burnt");
    CHECK_FALSE(holds(bakes.compare(by_name), "left out"));
    by_name.with_repeats = true;
    CHECK(holds(bakes.compare(by_name), "left out: 1 bake set aside."));
}

}  // namespace loafmark::commands
