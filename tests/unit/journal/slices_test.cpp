#include "catch.h"
#include "example_journal.h"

using namespace loafmark;
using namespace loafmark::journal;

namespace {
// SHA-256 of "abc" (FIPS 180-2, appendix B.1).
constexpr const char* hash_of_abc =
    "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";

std::vector<std::string> files_under(const std::filesystem::path& folder) {
    std::vector<std::string> files;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(folder))
        if (entry.is_regular_file())
            files.push_back(std::filesystem::relative(entry.path(), folder).string());
    return files;
}

struct Filed : ExampleJournal {
    BakeEntry bake = journal.add_bake(new_bake(formula, {2026, 3, 1}));
    LoafId loaf = bake.loaves[0].loaf.id;
};
}  // namespace

TEST_CASE("a slice comes back as it was filed, its photo kept by its content") {
    Filed example;
    NewSlice draft = new_slice(example.loaf, new_reading(0.3));
    draft.place = "middle";
    draft.cut = "lengthwise";
    draft.thickness = {Millimetres(14), Millimetres(16)};
    draft.mass = Grams(41);
    draft.since_oven = Hours(20);
    const auto filed = example.journal.file_photo(example.photo("IMG 1.JPG", "abc"), {draft});
    REQUIRE(filed.size() == 1);
    const Slice& slice = filed[0].slice;
    CHECK(slice.loaf == example.loaf);
    CHECK(slice.photo_hash == hash_of_abc);
    CHECK(slice.photo_name == "IMG 1.JPG");
    CHECK(slice.index_in_photo == 1);
    CHECK(slice.place == "middle");
    CHECK(slice.cut == "lengthwise");
    CHECK(slice.thickness == draft.thickness);
    CHECK(slice.mass == Grams(41));
    CHECK(slice.since_oven == Hours(20));
    CHECK(example.journal.slice(slice.id) == filed[0]);
    const auto kept = example.journal.photo_file(slice.id);
    CHECK(kept == example.path / "photos" / "ba" / (std::string(hash_of_abc) + ".jpg"));
    CHECK(read_text(kept) == "abc");
    CHECK(files_under(example.path / "incoming").empty());
}

TEST_CASE("a slice without a reading is kept to be measured another time") {
    Filed example;
    const auto filed =
        example.journal.file_photo(example.photo("a.jpg", "abc"), {new_slice(example.loaf)});
    CHECK_FALSE(filed[0].reading);
    CHECK(example.journal.bake(example.bake.bake.id).loaves[0].slices == filed);
}

TEST_CASE("a place or a cut that is none of the words is refused") {
    Filed example;
    NewSlice draft = new_slice(example.loaf);
    draft.place = "somewhere";
    CHECK(message_of([&] {
              (void)example.journal.file_photo(example.photo("a.jpg", "abc"), {draft});
          }) == "a slice's place is one of middle, one third, two thirds, end, not 'somewhere'");
    draft.place = "two thirds";
    draft.cut = "askew";
    CHECK(message_of([&] {
              (void)example.journal.file_photo(example.photo("a.jpg", "abc"), {draft});
          }) == "a slice's cut is one of crosswise, lengthwise, not 'askew'");
}

TEST_CASE("several slices of one photo are filed at once") {
    Filed example;
    NewSlice left = new_slice(example.loaf, new_reading(0.2));
    NewSlice right = new_slice(example.loaf, new_reading(0.4));
    right.index_in_photo = 2;
    const auto filed = example.journal.file_photo(example.photo("a.jpg", "abc"), {left, right});
    REQUIRE(filed.size() == 2);
    CHECK(filed[1].slice.index_in_photo == 2);
    CHECK(filed[0].reading->values.at(Measure::openness).value == 0.2);
    CHECK(filed[1].reading->values.at(Measure::openness).value == 0.4);
    CHECK(filed[0].slice.photo_hash == filed[1].slice.photo_hash);
}

TEST_CASE("the same photo under two bakes is one file") {
    Filed example;
    const auto other = example.journal.add_bake(new_bake(example.formula, {2026, 3, 2}));
    const auto first =
        example.journal.file_photo(example.photo("a.jpg", "abc"), {new_slice(example.loaf)});
    const auto second = example.journal.file_photo(example.photo("b.jpeg", "abc"),
                                                   {new_slice(other.loaves[0].loaf.id)});
    CHECK(files_under(example.path / "photos").size() == 1);
    CHECK(example.journal.photo_file(first[0].slice.id) ==
          example.journal.photo_file(second[0].slice.id));
    CHECK(second[0].slice.photo_name == "b.jpeg");
}

TEST_CASE("the same slice is not filed twice under one loaf") {
    Filed example;
    const auto photo = example.photo("a.jpg", "abc");
    (void)example.journal.file_photo(photo, {new_slice(example.loaf)});
    CHECK(message_of([&] { (void)example.journal.file_photo(photo, {new_slice(example.loaf)}); }) ==
          "a.jpg is filed under bake 1 already, as slice 1");
    CHECK(example.journal.bake(example.bake.bake.id).loaves[0].slices.size() == 1);
    CHECK(files_under(example.path / "photos").size() == 1);
}

TEST_CASE("a filing that fails midway leaves neither rows nor files") {
    Filed example;
    const auto photo = example.photo("a.jpg", "abc");
    const NewSlice good = new_slice(example.loaf, new_reading(0.3));
    const auto fails_with = [&](const NewSlice& second) {
        CHECK_THROWS_AS(example.journal.file_photo(photo, {good, second}), Error);
        CHECK(example.journal.bake(example.bake.bake.id).loaves[0].slices.empty());
        CHECK_THROWS_AS(example.journal.slice(SliceId{1}), NotFound);
        CHECK(files_under(example.path / "photos").empty());
        CHECK(files_under(example.path / "incoming").empty());
    };
    fails_with(good);  // the same slice again
    fails_with(new_slice(LoafId{99}));
    NewSlice flat = good;
    flat.index_in_photo = 2;
    flat.thickness = {Millimetres(0)};
    fails_with(flat);
    NewSlice unread = good;
    unread.index_in_photo = 2;
    unread.reading->scale_source = "";
    fails_with(unread);
    CHECK_THROWS_AS(example.journal.file_photo(photo, {}), Error);
    CHECK(example.journal.file_photo(photo, {good}).size() == 1);
}

TEST_CASE("a photo that cannot be read is named") {
    Filed example;
    const auto absent = example.folder / "absent.jpg";
    CHECK(message_of([&] {
              (void)example.journal.file_photo(absent, {new_slice(example.loaf)});
          }) == absent.string() + " cannot be opened: No such file or directory");
    CHECK(message_of([&] {
              (void)example.journal.file_photo(example.folder.path(), {new_slice(example.loaf)});
          }) == example.folder.path().string() + " cannot be read: Is a directory");
    CHECK(files_under(example.path / "incoming").empty());
}

TEST_CASE("a kept photo that was lost is missed, and comes back when it is filed again") {
    Filed example;
    const auto photo = example.photo("a.jpg", "abc");
    const SliceId slice = example.journal.file_photo(photo, {new_slice(example.loaf)})[0].slice.id;
    const auto kept = example.journal.photo_file(slice);
    std::filesystem::remove(kept);
    CHECK(message_of([&] { (void)example.journal.photo_file(slice); }) ==
          "the photo " + kept.string() + " is no longer there");
    const auto other = example.journal.add_bake(new_bake(example.formula, {2026, 3, 2}));
    (void)example.journal.file_photo(photo, {new_slice(other.loaves[0].loaf.id)});
    CHECK(read_text(example.journal.photo_file(slice)) == "abc");
}
