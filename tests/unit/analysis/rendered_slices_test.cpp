// Photo-like slices of known truth, made by another program's renderer; they lie outside the
// repository.
#include <filesystem>
#include <fstream>

#include <nlohmann/json.hpp>

#include "analysis/measure.h"
#include "catch.h"

namespace loafmark::analysis {
namespace {

namespace fs = std::filesystem;

const fs::path folder = fs::path(LOAFMARK_SHARED_DIR) / "rendered";

bool absent() {
    if (fs::exists(folder)) return false;
    WARN("skipped: there is no folder " << folder);
    return true;
}

struct Shares {
    double height = 0.01, width = 0.01, area = 0.01;
};

// Height, width and area against the truth beside the photo; each interval holds the truth.
void check_shape(const std::string& name, const MeasureOptions& options,
                 const Shares& shares = {}) {
    if (absent()) return;
    const nlohmann::json truth = nlohmann::json::parse(std::ifstream(folder / (name + ".json")));
    const Measurement result = measure_photo(folder / (name + ".jpg"), options);
    REQUIRE(result.reading.slices.size() == 1);
    const MeasureValues& values = result.reading.slices[0].values;
    const auto check = [&](Measure measure, const char* key, double share) {
        const Estimate& found = values.at(measure);
        const auto expected = truth.at(key).get<double>();
        INFO(key);
        CHECK(found.value == Approx(expected).epsilon(share));
        CHECK(found.low <= expected);
        CHECK(found.high >= expected);
    };
    check(Measure::loaf_height, "height_mm", shares.height);
    check(Measure::loaf_width, "width_mm", shares.width);
    check(Measure::cross_section_area, "area_mm2", shares.area);
}

TEST_CASE("a fine tin loaf on the white mat has its height, width and area within 1 %") {
    MeasureOptions options;
    options.thickness = {Millimetres(13)};
    check_shape("slice-01", options);
}

TEST_CASE("a standing loaf with a strip has its height, width and area within 1 %") {
    check_shape("slice-05", {});
}

TEST_CASE("an open loaf on a board in hard light has its width within 1 %, its height nearly so") {
    MeasureOptions options;
    options.thickness = {Millimetres(15)};
    // The lit side of the crust, in sight at the upper left, is told from the face too far in: the
    // height is 0.8 mm (1.02 %) small, the area 1.67 %. The intervals hold the truth.
    check_shape("slice-08", options, {.height = 0.012, .area = 0.02});
}

}  // namespace
}  // namespace loafmark::analysis
