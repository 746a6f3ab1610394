#include "commands/slice.h"

#include <nlohmann/json.hpp>

#include "catch.h"
#include "commands/failure.h"
#include "fakes.h"

namespace loafmark::commands {
namespace {

struct Filed {
    journal::ExampleJournal example;
    FakeWorld world;
    SliceAddOptions options;
    std::optional<Millimetres> usual_thickness;  // that the analysis was told
    std::optional<Hours> since_oven;

    Filed() {
        example.journal.add_bake(journal::new_bake(example.formula, {2026, 3, 1}, "First"));
        example.journal.add_bake(journal::new_bake(example.formula, {2026, 3, 2}, "Second"));
        options.bake = "First";
    }
    Outcome add(std::size_t slices) {
        options.photos.push_back(
            example.photo("photo" + std::to_string(slices) + ".jpg", "bytes").string());
        return run(options, example.journal, world.context(),
                   [&](const std::filesystem::path& photo, const analysis::MeasureOptions& asked) {
                       usual_thickness = asked.usual_thickness;
                       since_oven = asked.since_oven;
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

// Four plugs of 30 mm out of a slice of 10 mm fill 4 x pi x 1.5^2 x 1 cm3 = 28.27 cm3.
TEST_CASE("what was weighed of a slice stands in its JSON") {
    Filed filed;
    filed.options.analysis.thickness = {Millimetres(10)};
    CHECK(filed.add(1) == Outcome::done);
    filed.options.photos.clear();
    filed.options.bake = "Second";
    filed.options.facts.crumb_mass = Grams(7.07);
    filed.options.facts.plugs = CrumbPlugs{4, Millimetres(30)};
    CHECK(filed.add(1) == Outcome::done);
    const auto shown = [&](const std::string& bake) {
        filed.world.out.str("");
        (void)run(SliceShowOptions{bake, true}, filed.example.journal, filed.world.context());
        return nlohmann::json::parse(filed.world.out.str())["slices"][0]["weighed"];
    };
    CHECK(shown("First") == nlohmann::json::object());
    CHECK(shown("Second")["crumb_density"]["value"].get<double>() == Approx(0.25).epsilon(1e-3));
}

TEST_CASE("what the kitchen usually does stands for what was not said of a slice, and is told") {
    Filed filed;
    journal::KitchenChange kitchen;
    kitchen.facts.slice_thickness = Millimetres(12);
    kitchen.facts.cut_after = Hours(4);
    (void)filed.example.journal.change_kitchen(kitchen);
    CHECK(filed.add(1) == Outcome::done);
    CHECK(filed.usual_thickness == Millimetres(12));
    CHECK(filed.since_oven == Hours(4));
    CHECK(filed.world.out.str().find("As usual in your kitchen: 12mm thick where it lies on a mat, "
                                     "cut 4h after the oven. Was it otherwise?") == 0);
    const auto slice =
        filed.example.journal.bake(filed.example.journal.find_bake("First", {2026, 3, 5}))
            .loaves.front()
            .slices.at(0)
            .slice;
    CHECK(slice.since_oven == Hours(4));
    CHECK(slice.thickness.empty());  // nobody ruled this one
    // Measured again it is taken to be as thick as is usual now.
    SliceRemeasureOptions again;
    again.all = true;
    (void)run(again, filed.example.journal, filed.world.context(),
              [&](const std::filesystem::path& photo, const analysis::MeasureOptions& asked) {
                  CHECK(asked.usual_thickness == Millimetres(12));
                  CHECK(asked.since_oven == Hours(4));
                  return made_up_measurement(photo, asked);
              });
}

TEST_CASE("what is said of a slice goes before the kitchen's habits, and too soon a cut is told") {
    Filed filed;
    journal::KitchenChange kitchen;
    kitchen.facts.slice_thickness = Millimetres(12);
    kitchen.facts.cut_after = Hours(4);
    (void)filed.example.journal.change_kitchen(kitchen);
    filed.options.analysis.thickness = {Millimetres(15)};
    filed.options.facts.since_oven = Hours(2.5);
    CHECK(filed.add(1) == Outcome::done);
    CHECK_FALSE(filed.usual_thickness);
    CHECK(filed.since_oven == Hours(2.5));
    const std::string told = filed.world.out.str();
    CHECK(told.find("Cut 2h30m after the oven, sooner than your kitchen's 4h") == 0);
    CHECK(told.find("As usual") == std::string::npos);
}

TEST_CASE("a kitchen that told nothing leaves nothing guessed") {
    Filed filed;
    CHECK(filed.add(1) == Outcome::done);
    CHECK_FALSE(filed.usual_thickness);
    CHECK_FALSE(filed.since_oven);
    CHECK(filed.world.out.str().find("kitchen") == std::string::npos);
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

TEST_CASE("as many bakes must be named with --slices as there are slices, none less, none more") {
    for (const std::size_t shown : {1, 3}) {
        Filed filed;
        filed.options.bakes_of_slices = {"First", "Second"};
        CHECK(filed.add(shown) == Outcome::incomplete);
        CHECK(filed.world.err.str().find(
                  shown == 1 ? "shows 1 slice (1 top left), and --slices names 2; "
                             : "shows 3 slices (1 top left, 2 bottom left, 3 "
                               "bottom left), and --slices names 2; ") != std::string::npos);
        CHECK(filed.slices_of("First") + filed.slices_of("Second") == 0);
    }
}

TEST_CASE("with --slices no bake need stand before the photos") {
    Filed filed;
    filed.options.bake = filed.example.photo("first.jpg", "other bytes").string();
    filed.options.bakes_of_slices = {"Second", "First"};
    CHECK(filed.add(2) == Outcome::done);
    CHECK(filed.slices_of("First") == 2);
    CHECK(filed.slices_of("Second") == 2);
}

TEST_CASE("what is said of a print is kept for its target and used from then on") {
    Filed filed;
    filed.options.analysis.print_check = Millimetres(98.7);
    CHECK(filed.add(1) == Outcome::done);
    CHECK(filed.world.out.str().find("Kept: the 100 mm line of the A4 mat measures 98.7 mm.") !=
          std::string::npos);
    CHECK(filed.example.journal.print_checks().at(TargetKind::a4_mat).line == Millimetres(98.7));
    SliceRemeasureOptions again;
    again.all = true;
    std::optional<Millimetres> used;
    (void)run(again, filed.example.journal, filed.world.context(),
              [&](const std::filesystem::path& photo, const analysis::MeasureOptions& asked) {
                  used = asked.print_checks.at(TargetKind::a4_mat);
                  return made_up_measurement(photo, asked);
              });
    CHECK(used == Millimetres(98.7));
}

TEST_CASE("measuring again keeps each slice's bake, though one more slice is seen now") {
    Filed filed;
    filed.options.bakes_of_slices = {"First", "Second"};
    REQUIRE(filed.add(2) == Outcome::done);
    SliceRemeasureOptions again;
    again.all = true;
    // A new first slice, above the two that were filed.
    const auto one_more = [](const std::filesystem::path& photo,
                             const analysis::MeasureOptions& asked) {
        analysis::Measurement three = made_up_measurement(photo, asked, 3);
        std::vector<SliceReading>& slices = three.reading.slices;
        slices[2].outline = slices[1].outline;
        slices[1].outline = slices[0].outline;
        for (PhotoPoint& p : slices[0].outline)
            p.x += 1000;
        for (std::size_t i = 0; i < 3; ++i)
            slices[i].values[Measure::openness].value = 0.1 * static_cast<double>(i + 1);
        return three;
    };
    CHECK(run(again, filed.example.journal, filed.world.context(), one_more) == Outcome::done);
    const auto openness_of = [&](const char* bake) {
        const auto id = filed.example.journal.find_bake(bake, {2026, 3, 5});
        return filed.example.journal.bake(id).loaves[0].slices[0].reading->values.at(
            Measure::openness);
    };
    CHECK(openness_of("First").value == 0.2);
    CHECK(openness_of("Second").value == Approx(0.3));
    // One that is not seen any more keeps its old readings.
    const auto one_less = [](const std::filesystem::path& photo,
                             const analysis::MeasureOptions& asked) {
        return made_up_measurement(photo, asked, 1);
    };
    CHECK(run(again, filed.example.journal, filed.world.context(), one_less) ==
          Outcome::incomplete);
    CHECK(filed.world.err.str().find(
              "slice 2, number 2 in photo2.jpg, is not seen where it was; seen now: 1 (1 top "
              "left); its old readings stay") != std::string::npos);
}

TEST_CASE("a mass is of one slice only") {
    Filed filed;
    filed.options.facts.mass = Grams(42);
    filed.options.photos = {"another.jpg"};
    CHECK_THROWS_AS((void)filed.add(1), UsageError);
}

}  // namespace loafmark::commands
