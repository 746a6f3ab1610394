#include "commands/filing.h"

#include "catch.h"
#include "fakes.h"

namespace loafmark::commands {

TEST_CASE("a reading to be kept has the counted cells, its own warnings and both pictures") {
    analysis::Measurement measurement =
        made_up_measurement("slice.jpg", with_kept_pictures({}), 2, 0.3);
    measurement.reading.warnings = {{WarningCode::thickness_assumed, "whole photo", {}, {}},
                                    {WarningCode::thickness_assumed, "again", {}, {}},
                                    {WarningCode::cut_by_frame, "the first", {}, 1},
                                    {WarningCode::no_cells, "the second", {}, 2}};
    const journal::NewReading reading = reading_of(measurement, 1);
    CHECK(reading.analysis_version == "made up");
    CHECK(reading.scale_source == "mat");
    CHECK(reading.values.at(Measure::openness).value == 0.3);
    CHECK(reading.cell_diameters == std::vector{2.5});
    CHECK(reading.warnings == std::vector<std::string>{"thickness_assumed", "no_cells"});
    CHECK(reading.document.find("\"openness\"") != std::string::npos);
    REQUIRE(reading.pictures.size() == 2);
    const auto& picture = reading.pictures.at(journal::PictureKind::slice);
    CHECK(picture.media_type == "image/jpeg");
    CHECK(picture.mm_per_pixel == 0.2);
    CHECK(picture.width_px == 2);
    CHECK_FALSE(picture.bytes.empty());
}

}  // namespace loafmark::commands
