#include "commands/reading_text.h"

#include "catch.h"
#include "fakes.h"

namespace loafmark::commands {

TEST_CASE("a slice's measures stand with unit and interval, the smallest cell below") {
    const PhotoReading reading = made_up_measurement("slice.jpg", {}).reading;
    CHECK(measures_text(reading.slices[0].values) ==
          "measure      value      95 % interval\n"
          "loaf height   98.2  mm  97.0 to 99.5\n"
          "openness     0.400      0.380 to 0.420\n"
          "of cells of 0.5 mm and up\n");
}

TEST_CASE("a photo without a scale is printed without millimetres") {
    PhotoReading reading = made_up_measurement("slice.jpg", {}).reading;
    reading.scale = {};
    reading.slices[0].values.erase(Measure::resolved_limit);
    reading.slices[0].values.erase(Measure::loaf_height);
    CHECK(photo_text(reading) ==
          "slice.jpg (no scale)\n"
          "measure   value    95 % interval\n"
          "openness  0.400    0.380 to 0.420\n"
          "of cells of four pixels of the photo and up\n");
}

TEST_CASE("warnings come with what to do, and measures to come in one line") {
    PhotoReading reading = made_up_measurement("slice.jpg", {}, 2).reading;
    reading.warnings = {{WarningCode::cut_by_frame, "the photo's edge cuts the slice", {}, 2},
                        {WarningCode::not_yet, "not built", {Measure::side_pinch}, 1},
                        {WarningCode::not_yet, "not built", {Measure::proof_rise}, 2}};
    const std::string text = photo_text(reading);
    CHECK(text.find("\nSlice 2 of 2\n") != std::string::npos);
    CHECK(
        text.ends_with("\n! slice 2: the photo's edge cuts the slice\n"
                       "  -> take the photo again with the whole slice in the frame\n"
                       "Further measures are not built yet; --json names them.\n"));
}

TEST_CASE("the profile is one line, other cuts a column, and no lifted crust is said") {
    MeasureValues values = {{Measure::openness, {0.4, 0.38, 0.42, 0.33, 0.47}},
                            {Measure::unevenness, {0.21, 0.19, 0.23, {}, {}}}};
    for (int i = 0; i < 9; ++i)
        values[static_cast<Measure>(static_cast<int>(Measure::openness_profile_1) + i)] = {
            0.1 * i, 0, 1, {}, {}};
    CHECK(measures_text(values) ==
          "measure     value    95 % interval   another cut\n"
          "openness    0.400    0.380 to 0.420  0.330 to 0.470\n"
          "unevenness   0.21    0.19 to 0.23\n"
          "openness from base to crown, in ten bands: 0.00 0.10 0.20 0.30 0.40 0.50 0.60 0.70 "
          "0.80 -\n"
          "no lifted crust, no tunnel of a quarter of the loaf's width\n"
          "of cells of four pixels of the photo and up\n");
    values[Measure::tunnel_share_of_width] = {0.4, 0.39, 0.41, {}, {}};
    CHECK(measures_text(values).find("\nno lifted crust of a quarter") != std::string::npos);
}

TEST_CASE("a measure that is absent is a dash") {
    CHECK(value_text({}, Measure::openness) == "-");
    CHECK(value_text({{Measure::openness, {0.4126, 0.4, 0.5, {}, {}}}}, Measure::openness) ==
          "0.413");
}

}  // namespace loafmark::commands
