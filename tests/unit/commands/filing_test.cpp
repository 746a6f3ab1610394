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

TEST_CASE("a picture is shrunk to the mean of its pixels") {
    const Picture picture{5, 2, {10, 0, 0, 20, 0, 0, 1, 1, 1, 3, 3, 3, 9, 9, 9,  //
                                 30, 0, 0, 40, 0, 0, 1, 1, 1, 3, 3, 3, 9, 9, 9}};
    const Picture half = shrunk(picture, 2);
    CHECK(half.width == 2);
    CHECK(half.height == 1);
    CHECK(half.rgb == std::vector<std::uint8_t>{25, 0, 0, 2, 2, 2});
    CHECK(shrunk(picture, 3) == picture);  // too low for a pixel of nine
}

}  // namespace loafmark::commands
