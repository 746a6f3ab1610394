#include "documents/photo_document.h"

#include <nlohmann/json.hpp>

#include "catch.h"
#include "made_up_bakes.h"

using namespace loafmark;
using namespace loafmark::documents;
using nlohmann::json;

namespace {

std::string remedy(WarningCode code) {
    return "remedy for " + std::string(code_name(code));
}

PhotoReading two_slices() {
    PhotoReading reading;
    reading.photo = "slice.jpg";
    reading.taken = "2026-03-01T18:20:00";
    reading.analysis_version = "classical 1";
    reading.scale.source = ScaleSource::mat;
    reading.scale.mm_per_pixel = made_up::about(0.1);
    reading.scale.plane_height_mm = Estimate{15, 14, 16, {}, {}};
    reading.scale.photo_from_plane = {{{10, 0, 100}, {0, 10, 200}, {1e-6, 0, 1}}};
    SliceReading slice;
    slice.values = {{Measure::openness, made_up::about(0.3)},
                    {Measure::cell_diameter_number_d10, made_up::about(0.7)}};
    slice.outline = {{1, 2}, {30, 2}, {30, 40.123456789}};
    slice.base_line = {{{1, 40}, {30, 40}}};
    slice.cells = {{1, 2.0, 3.14159265358979, {10, 20}, true}, {2, 0.4, 0.1, {11, 21}, false}};
    reading.slices = {slice, slice};
    reading.warnings = {
        {WarningCode::thickness_assumed, "no thickness given", {Measure::loaf_height}, {}},
        {WarningCode::cut_by_frame, "cut", {Measure::loaf_height, Measure::loaf_width}, 2}};
    return reading;
}

}  // namespace

TEST_CASE("a photo's document names photo, time and scale") {
    const json document = json::parse(photo_document({{two_slices()}}, remedy));
    CHECK(document["schema"] == 1);
    REQUIRE(document["photos"].size() == 1);
    const json& photo = document["photos"][0];
    CHECK(photo["photo"] == "slice.jpg");
    CHECK(photo["taken"] == "2026-03-01T18:20:00");
    CHECK(photo["scale"]["source"] == "mat");
    CHECK(photo["scale"]["mm_per_pixel"]["value"] == 0.1);
    CHECK(photo["scale"]["plane_height"]["low"] == 14);
    CHECK(photo["scale"]["photo_from_plane"] ==
          json::parse("[[10, 0, 100], [0, 10, 200], [1e-06, 0, 1]]"));
}

TEST_CASE("without a scale and a time these are null") {
    PhotoReading reading = two_slices();
    reading.scale = {};
    reading.taken.reset();
    const json photo = json::parse(photo_document({{reading}}, remedy))["photos"][0];
    CHECK(photo["scale"] == json::parse(R"({"source": "none", "mm_per_pixel": null,
        "plane_height": null, "photo_from_plane": null})"));
    CHECK(photo["taken"].is_null());
}

TEST_CASE("a slice holds its measures by nested keys, its cells and its outline") {
    const json photo = json::parse(photo_document({{two_slices()}}, remedy))["photos"][0];
    REQUIRE(photo["slices"].size() == 2);
    const json& slice = photo["slices"][1];
    CHECK(slice["slice"] == 2);
    CHECK(slice["openness"]["value"] == 0.3);
    CHECK(slice["cell_diameter"]["number"]["d10"]["value"] == 0.7);
    CHECK(slice["cell_diameter"]["area"]["d50"].is_null());
    CHECK(slice["loaf_height"].is_null());
    CHECK_FALSE(slice.contains("bake_loss_percent"));
    CHECK(slice["cells"][0] == json::parse(
                                   R"({"id": 1, "x": 2, "area": 3.141593, "centre": [10, 20],
                                       "counted": true})"));
    CHECK(slice["outline"][2] == json::parse("[30, 40.12346]"));
    CHECK(slice["base_line"] == json::parse("[[1, 40], [30, 40]]"));
    CHECK_FALSE(slice.contains("label_map"));
}

TEST_CASE("a slice names its label maps where they were written") {
    const LabelMapNames names = {"s-1.cells.png", "s-1.slice.png", "s-1.crumb.png",
                                 "s-1.frame.json"};
    const json photo = json::parse(photo_document({{two_slices(), {names, names}}}, remedy));
    CHECK(photo["photos"][0]["slices"][0]["label_map"] ==
          json::parse(R"({"cells": "s-1.cells.png", "slice": "s-1.slice.png",
                          "crumb": "s-1.crumb.png", "frame": "s-1.frame.json"})"));
}

TEST_CASE("warnings carry code, message, remedy, the keys concerned and the slice") {
    const json photo = json::parse(photo_document({{two_slices()}}, remedy))["photos"][0];
    CHECK(photo["warnings"][0] ==
          json::parse(R"({"code": "thickness_assumed", "message": "no thickness given",
                          "remedy": "remedy for thickness_assumed", "keys": ["loaf_height"],
                          "slice": null})"));
    CHECK(photo["warnings"][1]["keys"] == json::parse(R"(["loaf_height", "loaf_width"])"));
    CHECK(photo["warnings"][1]["slice"] == 2);
}

TEST_CASE("a photo without slices is a document too") {
    PhotoReading reading;
    reading.photo = "table.jpg";
    const json document = json::parse(photo_document({{reading}}, remedy));
    CHECK(document["photos"][0]["slices"] == json::array());
    CHECK(json::parse(photo_document({}, remedy))["photos"] == json::array());
}

TEST_CASE("one slice's document stands on one line with the warnings that concern it") {
    const std::string text = slice_document(two_slices(), 0, remedy);
    CHECK(text.find('\n') == std::string::npos);
    const json slice = json::parse(text);
    CHECK(slice["slice"] == 1);
    CHECK(slice["photo"] == "slice.jpg");
    CHECK(slice["scale"]["source"] == "mat");
    CHECK(slice["openness"]["value"] == 0.3);
    REQUIRE(slice["warnings"].size() == 1);
    CHECK(slice["warnings"][0]["code"] == "thickness_assumed");
    CHECK(json::parse(slice_document(two_slices(), 1, remedy))["warnings"].size() == 2);
    CHECK_THROWS_AS(slice_document(two_slices(), 2, remedy), std::out_of_range);
}
