#include "commands/slice.h"

#include "catch.h"
#include "commands/failure.h"
#include "fakes.h"

namespace loafmark::commands {
namespace {

struct Filed {
    journal::ExampleJournal example;
    FakeWorld world;
    SliceAddOptions options;

    Filed() {
        example.journal.add_bake(journal::new_bake(example.formula, {2026, 3, 1}, "First"));
        example.journal.add_bake(journal::new_bake(example.formula, {2026, 3, 2}, "Second"));
        options.bake = "First";
    }
    Outcome add(std::size_t slices) {
        options.photos.push_back(
            example.photo("photo" + std::to_string(slices) + ".jpg", "bytes").string());
        return run(options, example.journal, world.context(),
                   [=](const std::filesystem::path& photo, const analysis::MeasureOptions& asked) {
                       return made_up_measurement(photo, asked, slices);
                   });
    }
    [[nodiscard]] std::size_t slices_of(const std::string& bake) const {
        const auto id = example.journal.find_bake(bake, {2026, 3, 5});
        return example.journal.bake(id).loaves.front().slices.size();
    }
};

}  // namespace

TEST_CASE("a slice is filed with what the baker said of it") {
    Filed filed;
    filed.options.facts.place = "middle";
    filed.options.facts.mass = Grams(42);
    filed.options.analysis.thickness = {Millimetres(15)};
    CHECK(filed.add(1) == Outcome::done);
    const auto entry =
        filed.example.journal.bake(filed.example.journal.find_bake("First", {2026, 3, 5}))
            .loaves.front()
            .slices.at(0);
    CHECK(entry.slice.place == "middle");
    CHECK(entry.slice.mass == Grams(42));
    CHECK(entry.slice.thickness == std::vector{Millimetres(15)});
    REQUIRE(entry.reading);
    CHECK(entry.reading->values.at(Measure::loaf_height).value == 98.25);
}

TEST_CASE("several slices are filed all or none") {
    Filed filed;
    CHECK(filed.add(2) == Outcome::incomplete);
    CHECK(filed.slices_of("First") == 0);
    filed.options.photos.clear();
    filed.options.bakes_of_slices = {"Second", "First"};
    CHECK(filed.add(2) == Outcome::done);
    CHECK(filed.slices_of("First") == 1);
    CHECK(filed.slices_of("Second") == 1);
}

TEST_CASE("as many bakes must be named with --slices as there are slices") {
    Filed filed;
    filed.options.bakes_of_slices = {"First", "Second"};
    CHECK(filed.add(3) == Outcome::incomplete);
    CHECK(filed.world.err.str().find("shows 3 slices, and --slices names 2; ") !=
          std::string::npos);
}

TEST_CASE("a mass is of one slice only") {
    Filed filed;
    filed.options.facts.mass = Grams(42);
    filed.options.photos = {"another.jpg"};
    CHECK_THROWS_AS((void)filed.add(1), UsageError);
}

}  // namespace loafmark::commands
