// Tests of merge.cpp, exchange.cpp, record_writer.cpp and things.cpp through Journal.
#include <algorithm>
#include <sstream>

#include "catch.h"
#include "example_journal.h"

using namespace loafmark;
using namespace loafmark::journal;

namespace {

std::string exported(const Journal& journal) {
    std::ostringstream json;
    (void)journal.export_to(json, std::nullopt);
    return json.str();
}

Environment other_environment(unsigned seed) {
    Environment environment = fixed_environment();
    environment.random_number = [engine = std::mt19937_64(seed)]() mutable { return engine(); };
    return environment;
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
    const std::size_t at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

// Everything that may be noted, so that a column that gets lost is missed.
void fill(ExampleJournal& example) {
    (void)example.bake_with_slice({2026, 3, 1}, 0.31);
    NewBag bag;
    bag.flour = example.white.id;
    bag.bought_mass = Grams(5000);
    bag.lot = "L 1";
    (void)example.journal.add_bag(bag);
    (void)example.journal.change_kitchen(with_tin("Large", Millilitres(1800)));
    example.journal.keep_print_check(TargetKind::strip, Millimetres(99));
    NewBake bake = new_bake(example.formula, {2026, 3, 2}, "Brot mit Ölsaaten \xF0\x9F\x8D\x9E");
    bake.notes = "=1+1\r\nline two, \"quoted\"";
    bake.steps = {{"mix", "2026-03-02 09:00", {}, Celsius(25)}};
    bake.loaves.resize(2);
    bake.loaves[0].baked_mass = Grams(790.25);
    bake.loaves[1].facts.dent = "slowly";
    const BakeEntry added = example.journal.add_bake(bake);
    NewTrial trial;
    trial.name = "Which FLOUR";
    trial.question = "same recipe";
    trial.variants = {"Strong white", "Ölandsvete"};
    trial.settings = {{"water", "fitted", "equal handling"}};
    (void)example.journal.add_to_trial(example.journal.add_trial(trial).id, {{added.bake.id, 1}});
}

}  // namespace

TEST_CASE("an export taken into an empty journal and exported again is the same text") {
    ExampleJournal example;
    fill(example);
    const std::string first = exported(example.journal);
    TemporaryFolder folder;
    Journal second = Journal::open(folder / "journal", other_environment(7));
    const Merged merged = second.merge(first, example.path / "photos", {});
    CHECK(merged.done);
    CHECK(merged.added.at("bake") == 2);
    CHECK(merged.missing_photos.size() == 1);
    CHECK(exported(second) == first);
    CHECK(second.find() == example.journal.find());
}

TEST_CASE("photos come along from the folder beside the document, and a wrong one is refused") {
    ExampleJournal example;
    fill(example);
    std::ostringstream json;
    const ExportCounts counts = example.journal.export_to(json, example.folder / "out");
    CHECK(counts.photos == 1);
    TemporaryFolder folder;
    Journal second = Journal::open(folder / "journal", other_environment(7));
    const Merged merged = second.merge(json.str(), example.folder / "out", {});
    CHECK(merged.photos == 1);
    CHECK(merged.missing_photos.empty());
    const SliceId slice = second.find()[0].loaves[0].slices[0].slice.id;
    CHECK(read_text(second.photo_file(slice)) == "photo of 1");

    for (const auto& file : std::filesystem::directory_iterator(example.folder / "out"))
        write_text(file.path(), "another picture");
    Journal third = Journal::open(folder / "third", other_environment(8));
    CHECK(message_of([&] {
              (void)third.merge(json.str(), example.folder / "out", {});
          }).find("is not what its name says") != std::string::npos);
    CHECK(third.find().empty());
    CHECK(std::filesystem::is_empty(folder / "third/incoming"));
}

TEST_CASE("the same import a second time changes nothing") {
    ExampleJournal example;
    fill(example);
    const std::string before = exported(example.journal);
    const std::size_t changes = example.journal.changes().size();
    const Merged merged = example.journal.merge(before, "nowhere", {});
    CHECK(merged.done);
    CHECK(merged.added.empty());
    CHECK(merged.conflicts.empty());
    CHECK(exported(example.journal) == before);
    CHECK(example.journal.changes().size() == changes);
}

TEST_CASE("what two journals tell differently is listed, and nothing is done until told whose") {
    ExampleJournal example;
    fill(example);
    const std::string theirs = exported(example.journal);
    FlourChange change;
    change.protein = Fraction(0.12);
    (void)example.journal.change_flour(example.white.id, change);
    (void)example.journal.add_flour(new_flour("Spelt", "spelt"));
    const std::string mine = exported(example.journal);

    const Merged refused = example.journal.merge(theirs, "nowhere", {});
    CHECK_FALSE(refused.done);
    REQUIRE(refused.conflicts.size() == 1);
    CHECK(refused.conflicts[0].thing == "flour 'Strong white'");
    CHECK(refused.conflicts[0].column == "protein_fraction");
    CHECK(refused.conflicts[0].mine == "0.12");
    CHECK(refused.conflicts[0].theirs == "nothing");
    CHECK(exported(example.journal) == mine);

    const Merged kept = example.journal.merge(theirs, "nowhere", {OnConflict::keep_mine, {}});
    CHECK(kept.done);
    CHECK(exported(example.journal) == mine);

    const Merged took = example.journal.merge(theirs, "nowhere", {OnConflict::take_theirs, {}});
    CHECK(took.changed.at("flour") == 1);
    CHECK_FALSE(example.journal.flour("Strong white").protein);
    (void)example.journal.undo();
    CHECK(exported(example.journal) == mine);
}

TEST_CASE("two flours of one name are one or two, as the baker says") {
    ExampleJournal example;
    TemporaryFolder folder;
    Journal other = Journal::open(folder / "journal", other_environment(9));
    const Flour white = other.add_flour(new_flour("STRONG WHITE"));
    (void)other.add_bake(new_bake(plain_formula(other, "Other", white, 0.7), {2026, 4, 1}));
    const std::string theirs = exported(other);

    const Merged refused = example.journal.merge(theirs, "nowhere", {});
    CHECK_FALSE(refused.done);
    REQUIRE(refused.conflicts.size() == 1);
    CHECK(refused.conflicts[0].same_name);

    SECTION("one") {
        const MergeChoices same{OnConflict::refuse, OnSameName::same_thing};
        CHECK(example.journal.merge(theirs, "nowhere", same).done);
        CHECK(example.journal.flours().size() == 2);
        CHECK(example.journal.find().at(0).flours.at(0).flour == example.white.id);
        CHECK(example.journal.merge(theirs, "nowhere", same).added.empty());
    }
    SECTION("two") {
        const MergeChoices apart{OnConflict::refuse, OnSameName::keep_apart};
        const Merged merged = example.journal.merge(theirs, "nowhere", apart);
        CHECK(merged.done);
        CHECK(merged.renamed.size() == 1);
        CHECK(example.journal.flours().size() == 3);
        CHECK(example.journal.merge(theirs, "nowhere", apart).added.empty());
        CHECK(example.journal.merge(theirs, "nowhere", {}).conflicts.empty());
    }
}

TEST_CASE("versions of a formula that two kitchens made apart are numbered one after the other") {
    ExampleJournal example;
    TemporaryFolder folder;
    Journal other = Journal::open(folder / "journal", other_environment(9));
    REQUIRE(other.merge(exported(example.journal), "nowhere", {}).done);
    const auto wetter = [](Journal& journal, double hydration) {
        const FormulaVersion plain = journal.formula("Plain loaf");
        (void)journal.add_formula_version(
            plain.formula,
            {{flour_line(journal.flour("Strong white"), 1), water_line(hydration)}, {}});
    };
    wetter(example.journal, 0.7);
    wetter(other, 0.75);
    CHECK(example.journal.merge(exported(other), "nowhere", {}).done);
    const auto versions = example.journal.formula_versions(example.formula.formula);
    REQUIRE(versions.size() == 3);
    CHECK(versions[1].ingredients[1].share == Fraction(0.7));
    CHECK(versions[2].ingredients[1].share == Fraction(0.75));
    CHECK(example.journal.merge(exported(other), "nowhere", {}).added.empty());
}

TEST_CASE("a document that is wrong is refused with its place, and nothing of it is taken in") {
    ExampleJournal example;
    fill(example);
    const std::string good = exported(example.journal);
    TemporaryFolder folder;
    Journal second = Journal::open(folder / "journal", other_environment(7));
    const auto refusal = [&](const std::string& text) {
        const std::string message = message_of([&] { (void)second.merge(text, "nowhere", {}); });
        CHECK(second.flours().empty());
        return message;
    };
    CHECK(refusal("").find("this is no JSON document: line 1") == 0);
    CHECK(refusal("{}").find("this is no export of a journal") == 0);
    CHECK(refusal("[1]").find("this is no export of a journal") == 0);
    CHECK(refusal(good.substr(0, good.size() / 2)).find("this is no JSON document: line ") == 0);
    CHECK(refusal(replaced(good, "\"flour\": [", "\"flower\": [")) ==
          "\"flower\" is nothing that a journal holds");
    CHECK(refusal(replaced(good, "\"grain\":\"wheat\"", "\"grian\":\"wheat\""))
              .find("\"grian\" is nothing that is known of it") != std::string::npos);
    CHECK(refusal(replaced(good, "\"mass_g\":", "\"mass_g\":\"900 g\",\"mass_h\":"))
              .find("mixed_amount 1: \"mass_g\" is \"900 g\", not a number") != std::string::npos);
    CHECK(refusal(replaced(good, "\"date\":\"2026-03-01\"", "\"date\":\"2026-02-30\"")) ==
          "2026-02-30 is not a day of the calendar");
    CHECK(refusal(replaced(good, "\"kind\":\"flour\"", "\"kind\":\"flower\""))
              .find("formula version ") == 0);
    CHECK(refusal(replaced(good, "\"loafmark_journal\": 1", "\"loafmark_journal\": 2")) ==
          "it was written by a newer Loafmark");
    CHECK(refusal(replaced(good, "\"share_of_flour\":1.0", "\"share_of_flour\":0.9"))
              .find("makes 90.0 % instead of 100 %") != std::string::npos);
    // A flour that nobody has.
    const std::size_t at = good.find("\"flour\":\"") + 9;
    CHECK(refusal(std::string(good).replace(at, 4, "0000")).find("that neither journal has") !=
          std::string::npos);
}
