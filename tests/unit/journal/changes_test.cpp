// Tests of changes.cpp and bin.cpp through Journal.
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
}  // namespace

TEST_CASE("each change is taken back in turn and made again, to the letter") {
    ExampleJournal example;
    Journal& journal = example.journal;
    std::vector<std::string> states{exported(journal)};
    const auto then = [&](auto work) {
        work();
        states.push_back(exported(journal));
    };
    then([&] { (void)journal.add_flour(new_flour("Spelt", "spelt")); });
    const BakeEntry bake = journal.add_bake(new_bake(example.formula, {2026, 3, 1}));
    states.push_back(exported(journal));
    then([&] {
        (void)journal.file_photo(example.photo("a.jpg", "a"),
                                 {new_slice(bake.loaves[0].loaf.id, new_reading(0.3))});
    });
    then([&] { (void)journal.change_kitchen(with_tin("Large")); });
    BakeChange change;
    change.mixed = bake.bake.mixed;
    change.mixed->at(1).mass = Grams(1);
    then([&] { (void)journal.change_bake(bake.bake.id, change); });
    then([&] { (void)journal.drop(Droppable::bake, bake.bake.id.value); });

    for (std::size_t i = states.size() - 1; i > 0; --i) {
        (void)journal.undo();
        CHECK(exported(journal) == states[i - 1]);
    }
    for (std::size_t i = 1; i < states.size(); ++i) {
        (void)journal.redo();
        CHECK(exported(journal) == states[i]);
    }
    CHECK(message_of([&] { (void)journal.redo(); }).find("there is no change") == 0);
    CHECK(journal.check().empty());
}

TEST_CASE("what changes are called, and that a new one ends what could be made again") {
    ExampleJournal example;
    (void)example.bake_with_slice({2026, 3, 1}, 0.3);
    CHECK(example.journal.changes().at(0).words == "added: reading, slice");
    CHECK(example.journal.changes().at(1).words == "added: bake, bake day, loaf");
    (void)example.journal.undo();
    CHECK(example.journal.changes().at(0).undone);
    (void)example.journal.add_flour(new_flour("Spelt"));
    CHECK(message_of([&] { (void)example.journal.redo(); }) != "");
    for (int i = 0; i < 30; ++i)
        (void)example.journal.change_kitchen(with_tin("Tin " + std::to_string(i)));
    CHECK(example.journal.changes().size() == 20);
}

TEST_CASE("a bake in the bin is nowhere, and gives its flour back, until it is taken out") {
    ExampleJournal example;
    Journal& journal = example.journal;
    NewBag draft;
    draft.flour = example.white.id;
    draft.bought_mass = Grams(5000);
    const Bag bag = journal.add_bag(draft);
    const BakeEntry bake = example.bake_with_slice({2026, 3, 1}, 0.3);
    const std::optional<Grams> after = journal.bag(bag.id).left;
    CHECK(*after < Grams(5000));
    Filter open;
    open.where = {parse_condition("openness 0.2..")};
    REQUIRE(journal.find(open).size() == 1);

    const Dropped dropped = journal.drop(Droppable::bake, bake.bake.id.value);
    CHECK(dropped.name == "Plain loaf, 2026-03-01");
    CHECK(journal.find().empty());
    CHECK(journal.find(open).empty());
    CHECK_THROWS_AS(journal.find_bake("last", {2026, 3, 1}), NotFound);
    CHECK(journal.bag(bag.id).left == Grams(5000));
    CHECK(journal.bin() == std::vector<Dropped>{dropped});
    CHECK_THROWS_AS(journal.drop(Droppable::bake, bake.bake.id.value), Error);

    (void)journal.take_out(Droppable::bake, bake.bake.id.value);
    CHECK(journal.find() == std::vector<BakeEntry>{bake});
    CHECK(journal.bag(bag.id).left == after);
    CHECK_THROWS_AS(journal.take_out(Droppable::bake, bake.bake.id.value), Error);
}

TEST_CASE("a bake set aside keeps its reason and its draw on the bag") {
    ExampleJournal example;
    NewBag draft;
    draft.flour = example.white.id;
    draft.bought_mass = Grams(5000);
    const Bag bag = example.journal.add_bag(draft);
    const BakeEntry bake = example.journal.add_bake(new_bake(example.formula, {2026, 3, 1}));
    const auto left = example.journal.bag(bag.id).left;
    CHECK(example.journal.set_aside(bake.bake.id, "oven went out").bake.set_aside ==
          "oven went out");
    CHECK(example.journal.bag(bag.id).left == left);
    CHECK_FALSE(example.journal.set_aside(bake.bake.id, std::nullopt).bake.set_aside);
    CHECK_THROWS_AS(example.journal.set_aside(bake.bake.id, " "), Error);
}

TEST_CASE("a slice, a flour, a formula and a bag in the bin are hidden where things are chosen") {
    ExampleJournal example;
    Journal& journal = example.journal;
    const BakeEntry bake = example.bake_with_slice({2026, 3, 1}, 0.3);
    (void)journal.drop(Droppable::slice, bake.loaves[0].slices[0].slice.id.value);
    CHECK(journal.bake(bake.bake.id).loaves[0].slices.empty());
    (void)journal.drop(Droppable::flour, example.rye.id.value);
    CHECK(journal.flours().size() == 1);
    CHECK(message_of([&] { (void)journal.add_flour(new_flour("wholemeal RYE")); }) ==
          "there is a flour 'Wholemeal rye' already, in the bin");
    (void)journal.drop(Droppable::formula, example.formula.formula.value);
    CHECK(journal.formulas().empty());
    CHECK(journal.bake(bake.bake.id).formula_name == "Plain loaf");
}

TEST_CASE("the bin is emptied of what nothing else names, with the photos") {
    ExampleJournal example;
    Journal& journal = example.journal;
    const BakeEntry bake = example.bake_with_slice({2026, 3, 1}, 0.3);
    const auto photo = journal.photo_file(bake.loaves[0].slices[0].slice.id);
    (void)journal.drop(Droppable::flour, example.white.id.value);
    CHECK(journal.empty_bin().gone == 0);  // the formula and the bake name it
    (void)journal.drop(Droppable::bake, bake.bake.id.value);
    const Emptied emptied = journal.empty_bin();
    CHECK(emptied.gone == 1);
    CHECK(emptied.kept.size() == 1);
    CHECK_FALSE(std::filesystem::exists(photo));
    CHECK(journal.changes().empty());
    CHECK(journal.check().empty());
    (void)journal.drop(Droppable::formula, example.formula.formula.value);
    CHECK(journal.empty_bin().gone == 2);
    CHECK(journal.bin().empty());
}
