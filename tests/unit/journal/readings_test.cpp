#include <cmath>

#include "catch.h"
#include "example_journal.h"

using namespace loafmark;
using namespace loafmark::journal;

namespace {

NewReading full_reading() {
    NewReading draft = new_reading(0.31);
    draft.taken = "2026-03-01T18:20:00";
    draft.cell_diameters = {0.5, 1.0 / 3, 12.75};
    draft.warnings = {"not_yet", "one_length_only"};
    draft.document = R"({"loaf_height": {"value": 98.5}})";
    draft.pictures[PictureKind::slice] = {
        "image/jpeg", {0xFF, 0xD8, 0x00}, 0.1, 30, 20, {{0, 20}, {12.5, 0.1}, {30, 20}}, true,
        {0xFF}};
    draft.pictures[PictureKind::overlay] = {"image/jpeg", {0xFF, 0xD9}, std::nullopt, 31, 21};
    return draft;
}

}  // namespace

TEST_CASE("a reading comes back as it was filed") {
    ExampleJournal example;
    const auto bake = example.journal.add_bake(new_bake(example.formula, {2026, 3, 1}));
    const NewReading draft = full_reading();
    const auto filed = example.journal.file_photo(example.photo("a.jpg", "a"),
                                                  {new_slice(bake.loaves[0].loaf.id, draft)});
    REQUIRE(filed.size() == 1);
    REQUIRE(filed[0].reading);
    const Reading& reading = *filed[0].reading;
    CHECK(reading.analysis_version == "0.1");
    CHECK(reading.made_at == "2026-03-01T18:20:00Z");
    CHECK(reading.scale_source == "mat");
    CHECK(reading.taken == "2026-03-01T18:20:00");
    CHECK(reading.values == draft.values);
    CHECK(reading.cell_diameters == draft.cell_diameters);
    CHECK(reading.warnings == draft.warnings);
    CHECK(example.journal.document(reading.id) == draft.document);
    CHECK(example.journal.pictures(reading.id) == draft.pictures);
}

TEST_CASE("a page of many gets the small pictures, and the full one where there is no small one") {
    ExampleJournal example;
    const auto bake = example.journal.add_bake(new_bake(example.formula, {2026, 3, 1}));
    const auto filed = example.journal.file_photo(
        example.photo("a.jpg", "a"), {new_slice(bake.loaves[0].loaf.id, full_reading())});
    const auto small = example.journal.pictures(filed[0].reading->id, PictureSize::small);
    CHECK(small.at(PictureKind::slice).bytes == std::vector<std::uint8_t>{0xFF});
    CHECK(small.at(PictureKind::slice).width_px == 30);
    CHECK(small.at(PictureKind::slice).outline.size() == 3);
    CHECK(small.at(PictureKind::overlay).bytes == std::vector<std::uint8_t>{0xFF, 0xD9});
}

TEST_CASE("a new version of the analysis makes a new reading, and the old one stays") {
    ExampleJournal example;
    const BakeEntry bake = example.bake_with_slice({2026, 3, 1}, 0.3);
    const SliceEntry before = bake.loaves[0].slices[0];
    NewReading again = new_reading(0.35);
    again.analysis_version = "0.2";
    const Reading second = example.journal.add_reading(before.slice.id, again);
    CHECK(example.journal.readings(before.slice.id) == std::vector{second, *before.reading});
    CHECK(example.journal.slice(before.slice.id).reading == second);
    CHECK(example.journal.bake(bake.bake.id).loaves[0].slices[0].reading == second);
}

TEST_CASE("a reading of nothing, or with what is no number, is refused") {
    ExampleJournal example;
    const BakeEntry bake = example.bake_with_slice({2026, 3, 1}, 0.3);
    const SliceId slice = bake.loaves[0].slices[0].slice.id;
    CHECK_THROWS_AS(example.journal.add_reading(SliceId{99}, new_reading(0.3)), NotFound);
    CHECK_THROWS_AS(example.journal.readings(SliceId{99}), NotFound);
    CHECK_THROWS_AS(example.journal.pictures(ReadingId{99}), NotFound);
    CHECK_THROWS_AS(example.journal.document(ReadingId{99}), NotFound);
    NewReading broken = new_reading(0.3);
    broken.values[Measure::openness].value = std::nan("");
    CHECK(message_of([&] { (void)example.journal.add_reading(slice, broken); }) ==
          "the value of openness is not a number");
    NewReading nameless = new_reading(0.3);
    nameless.analysis_version = "";
    CHECK_THROWS_AS(example.journal.add_reading(slice, nameless), Error);
    CHECK(example.journal.readings(slice).size() == 1);
}
