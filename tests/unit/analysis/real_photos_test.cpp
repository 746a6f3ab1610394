// Photos of real bread without a target, their outlines drawn by hand; they lie outside the
// repository.
#include <filesystem>
#include <fstream>

#include <nlohmann/json.hpp>

#include "analysis/measure.h"
#include "catch.h"
#include "made_bread.h"

namespace loafmark::analysis {
namespace {

namespace fs = std::filesystem;

const fs::path folder = fs::path(LOAFMARK_SHARED_DIR) / "photos";

struct RealPhoto {
    const char* name;
    double least_overlap;  // of the outline found and the one drawn: intersection over union
};

Polyline drawn_outline(const fs::path& file) {
    Polyline outline;
    const nlohmann::json drawn = nlohmann::json::parse(std::ifstream(file));
    for (const auto& point : drawn.at("outline"))
        outline.emplace_back(point.at(0).get<double>(), point.at(1).get<double>());
    return outline;
}

TEST_CASE("in photos of real bread one slice is found where it was drawn by hand") {
    if (!fs::exists(folder)) {
        WARN("skipped: there is no folder " << folder);
        return;
    }
    // 0.97 is wanted of each that shows a whole slice. Printed labels bite into the flat loaf, and
    // the einkorn slice lies before another.
    const auto photo = GENERATE(values<RealPhoto>({{"whole-wheat-crumb", 0.97},
                                                   {"einkorn-crumb", 0.96},
                                                   {"open-crumb", 0.965},
                                                   {"flat-bread", 0.91},
                                                   {"underbaked", 0.97}}));
    INFO(photo.name);
    const fs::path file = folder / photo.name;
    const Measurement result = measure_photo(file.string() + ".jpg");
    REQUIRE(result.reading.slices.size() == 1);
    const SliceReading& slice = result.reading.slices.front();
    const double openness = slice.values.at(Measure::openness).value;
    CHECK(openness > 0.05);
    CHECK(openness < 0.95);
    Polyline found;
    for (const PhotoPoint& p : slice.outline)
        found.emplace_back(p.x, p.y);
    const double overlap = made::overlap(found, drawn_outline(file.string() + ".outline.json"), 2);
    CHECK(overlap >= photo.least_overlap);
}

}  // namespace
}  // namespace loafmark::analysis
