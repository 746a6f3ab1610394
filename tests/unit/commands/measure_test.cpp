#include "commands/measure.h"

#include <CLI/CLI.hpp>

#include "catch.h"
#include "commands/failure.h"
#include "fakes.h"

namespace loafmark::commands {
namespace {

MeasureOptions parsed(const std::string& words) {
    CLI::App app;
    MeasureOptions options;
    add_measure(app, options);
    app.parse(words);
    return options;
}

analysis::Measurement measure(const std::filesystem::path& photo,
                              const analysis::MeasureOptions& options) {
    if (photo == "unreadable.jpg")
        throw analysis::Error("unreadable.jpg is no photo", "give another");
    return made_up_measurement(photo, options, photo == "bare.jpg" ? 0 : 1);
}

}  // namespace

TEST_CASE("the options of measure are read without touching a file") {
    const MeasureOptions options = parsed(
        "measure a.jpg b.jpg --thickness 14mm,1.6cm --loaf-width 118mm --print-check "
        "98.7mm --base bottom --json");
    CHECK(options.photos == std::vector<std::string>{"a.jpg", "b.jpg"});
    CHECK(options.analysis.thickness == std::vector{Millimetres(14), Millimetres(16)});
    CHECK(options.analysis.loaf_width == Millimetres(118));
    CHECK(options.analysis.print_check == Millimetres(98.7));
    CHECK(options.analysis.base.kind == analysis::BaseHint::Kind::bottom);
    CHECK(options.json);
    CHECK_FALSE(options.overlay_folder);
}

TEST_CASE("pictures are made only where they are asked for") {
    FakeWorld world;
    analysis::MeasureOptions seen;
    const auto look = [&](const std::filesystem::path& photo,
                          const analysis::MeasureOptions& options) {
        seen = options;
        return made_up_measurement(photo, options);
    };
    CHECK(run(parsed("measure a.jpg"), world.context(), look) == Outcome::done);
    CHECK_FALSE(seen.overlay);
    CHECK_FALSE(seen.label_map);
    const journal::TemporaryFolder folder;
    MeasureOptions options = parsed("measure a.jpg");
    options.overlay_folder = folder.path().string();
    CHECK(run(options, world.context(), look) == Outcome::done);
    CHECK(seen.overlay);
    CHECK(std::filesystem::exists(folder / "a-1.overlay.jpg"));
}

TEST_CASE("what cannot be measured is said on stderr and the rest goes to stdout") {
    FakeWorld world;
    CHECK(run(parsed("measure unreadable.jpg good.jpg bare.jpg"), world.context(), measure) ==
          Outcome::incomplete);
    CHECK(world.out.str().starts_with("good.jpg (scale: mat, 0.1 mm a pixel)\n"));
    CHECK(
        world.err.str().starts_with("loafmark: error: unreadable.jpg is no photo; give another\n"
                                    "loafmark: error: no slice seen in bare.jpg; "));
}

TEST_CASE("photos of one stem are refused only where files would be written") {
    FakeWorld world;
    MeasureOptions options = parsed("measure a/x.jpg b/x.png");
    CHECK(run(options, world.context(), measure) == Outcome::done);
    options.overlay_folder = "never made";
    CHECK_THROWS_AS((void)run(options, world.context(), measure), UsageError);
    CHECK_FALSE(std::filesystem::exists("never made"));
}

}  // namespace loafmark::commands
