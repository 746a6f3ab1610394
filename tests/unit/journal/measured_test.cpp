#include "journal/measured.h"

#include "catch.h"
#include "example_journal.h"

using namespace loafmark;
using namespace loafmark::journal;

namespace {

constexpr std::array<std::string_view, 2> poor{"blurred", "overexposed"};

struct Baking {
    ExampleJournal example;
    Journal& journal = example.journal;

    [[nodiscard]] MeasuredBakes measured(const Filter& filter = {},
                                         Measure measure = Measure::openness) const {
        return journal.measured(filter, measure, poor);
    }
    int photos = 0;
    SliceEntry slice(LoafId loaf, double openness, std::optional<std::string> place = {},
                     const std::string& warning = "") {
        NewReading reading = new_reading(openness);
        if (!warning.empty()) reading.warnings = {warning};
        NewSlice slice = new_slice(loaf, reading);
        slice.place = std::move(place);
        const auto file = example.photo("p.jpg", "photo " + std::to_string(++photos));
        return journal.file_photo(file, {slice}).front();
    }
    // Two loaves, and half rye.
    BakeEntry two_loaves(Date date) {
        const FormulaVersion half = journal.add_formula(
            "Half",
            {{flour_line(example.white, 0.5), flour_line(example.rye, 0.5), water_line(0.7)}, {}});
        NewBake bake = new_bake(half, date);
        bake.loaves = {NewLoaf{}, NewLoaf{}};
        return journal.add_bake(bake);
    }
};

}  // namespace

TEST_CASE("an empty journal has nothing measured") {
    const Baking baking;
    CHECK(baking.measured().bakes.empty());
    CHECK(baking.measured().slices.empty());
    CHECK(baking.measured().analysis_versions.empty());
}

TEST_CASE("what is measured agrees with what find gives") {
    Baking baking;
    (void)baking.example.bake_with_slice({2026, 3, 4}, 0.30);
    const BakeEntry two = baking.two_loaves({2026, 3, 2});
    // Filed out of the loaves' order.
    (void)baking.slice(two.loaves[1].loaf.id, 0.21);
    (void)baking.slice(two.loaves[0].loaf.id, 0.25);
    (void)baking.slice(two.loaves[0].loaf.id, 0.10, "end");
    (void)baking.journal.add_bake(new_bake(baking.example.formula, {2026, 3, 9}, "No photo"));
    const MeasuredBakes measured = baking.measured();
    REQUIRE(measured.bakes.size() == 3);
    for (const MeasuredBake& bake : measured.bakes) {
        const BakeEntry entry = baking.journal.bake(bake.id);
        CHECK(bake.date == entry.bake.date);
        CHECK(bake.title == entry.bake.title);
        CHECK_FALSE(bake.set_aside);
        CHECK(bake.hydration->count() == Approx(entry.hydration->count()));
        CHECK(bake.main_flour == entry.flours[0].flour);
        CHECK(bake.main_share.count() == Approx(entry.flours[0].share.count()));
        CHECK(measured.flours.at(*bake.main_flour) == entry.flours[0].name);
    }
    CHECK(measured.bakes[1].main_flour == baking.example.white.id);  // of equals the first
    const auto slices = measured.of(measured.bakes[1]);
    REQUIRE(slices.size() == 3);
    CHECK(slices[0] == MeasuredSlice{two.loaves[0].loaf.id, 0.25, false, 0});
    CHECK(slices[1] == MeasuredSlice{two.loaves[0].loaf.id, 0.10, true, 0});
    CHECK(slices[2] == MeasuredSlice{two.loaves[1].loaf.id, 0.21, false, 0});
    CHECK(measured.of(measured.bakes[2]).empty());
    CHECK(measured.analysis_versions == std::vector<std::string>{"0.1"});
}

TEST_CASE("a slice in the bin, a bake in the bin and an older reading are not measured") {
    Baking baking;
    const BakeEntry kept = baking.example.bake_with_slice({2026, 3, 1}, 0.30);
    const SliceEntry dropped = baking.slice(kept.loaves[0].loaf.id, 0.9);
    (void)baking.journal.drop(Droppable::slice, dropped.slice.id.value);
    const BakeEntry gone = baking.example.bake_with_slice({2026, 3, 2}, 0.8);
    (void)baking.journal.drop(Droppable::bake, gone.bake.id.value);
    NewReading newer = new_reading(0.33);
    newer.analysis_version = "0.2";
    (void)baking.journal.add_reading(kept.loaves[0].slices[0].slice.id, newer);
    const MeasuredBakes measured = baking.measured();
    REQUIRE(measured.bakes.size() == 1);
    REQUIRE(measured.slices.size() == 1);
    CHECK(measured.slices[0].value == 0.33);
    CHECK(measured.analysis_versions[measured.slices[0].version] == "0.2");
    CHECK(measured.bakes[0].left_out == 0);
    // Of two versions each slice names its own.
    (void)baking.slice(kept.loaves[0].loaf.id, 0.4);
    const MeasuredBakes both = baking.measured();
    REQUIRE(both.slices.size() == 2);
    CHECK(both.analysis_versions[both.slices[0].version] == "0.2");
    CHECK(both.analysis_versions[both.slices[1].version] == "0.1");
}

TEST_CASE("poor readings are counted and left out, with the measure or without") {
    Baking baking;
    const BakeEntry bake = baking.example.bake_with_slice({2026, 3, 1}, 0.30);
    const SliceEntry blurred = baking.slice(bake.loaves[0].loaf.id, 0.9, {}, "blurred");
    (void)baking.slice(bake.loaves[0].loaf.id, 0.31, {}, "no_scale");
    CHECK(baking.measured().bakes[0].left_out == 1);
    CHECK(baking.measured().slices.size() == 2);
    CHECK(baking.measured({}, Measure::dense_base).bakes[0].left_out == 1);
    CHECK(baking.measured({}, Measure::dense_base).slices.empty());
    // Read again, it is good.
    (void)baking.journal.add_reading(blurred.slice.id, new_reading(0.32));
    CHECK(baking.measured().bakes[0].left_out == 0);
    CHECK(baking.measured().slices.size() == 3);
}

TEST_CASE("a filter narrows what is measured, and bakes set aside are marked") {
    Baking baking;
    const BakeEntry white = baking.example.bake_with_slice({2026, 3, 1}, 0.30);
    const BakeEntry two = baking.two_loaves({2026, 3, 2});
    Filter filter;
    filter.flour = baking.example.rye.id;
    REQUIRE(baking.measured(filter).bakes.size() == 1);
    CHECK(baking.measured(filter).bakes[0].id == two.bake.id);
    NewTrial draft;
    draft.name = "How wet";
    draft.variants = {"66 %", "80 %"};
    draft.factor = "water";
    const Trial trial = baking.journal.add_trial(draft);
    (void)baking.journal.add_to_trial(trial.id, {{white.bake.id, 0}});
    filter = {};
    filter.trial = trial.id;
    REQUIRE(baking.measured(filter).bakes.size() == 1);
    CHECK(baking.measured(filter).bakes[0].id == white.bake.id);
    baking.journal.set_aside(white.bake.id, "burnt");
    CHECK(baking.measured().bakes[0].set_aside);
    filter = {};
    filter.where = {parse_condition("nicety 3..")};
    CHECK_THROWS_AS(baking.measured(filter), NotFound);
}
