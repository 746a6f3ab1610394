#include "analysis/measure.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <stdexcept>

#include <opencv2/imgproc.hpp>

#include "catch.h"
#include "made_bread.h"
#include "photo_bytes.h"
#include "scratch_folder.h"
#include "target_photo.h"

namespace loafmark::analysis {
namespace {

const made::Bread loaf = made::bread_of(made::placed(made::tin_loaf(100, 80), {80, 105}));

made::Table board() {
    made::Table table;
    table.photo = {960, 720};
    table.pixels_per_mm = 6;
    table.ground = {62, 96, 156};
    return table;
}

Measurement measured(const cv::Mat& photo, const MeasureOptions& options = {}) {
    const ScratchFolder folder;
    return measure_photo(folder.file("slice.jpg", made::jpeg_of(photo)), options);
}

cv::Mat plain_photo() {
    return made::photo_of_bread(board(), {loaf});
}

// A strip above the slice, both in the plane of the cut, seen from straight above.
cv::Mat photo_with_strip() {
    made::Table table;
    table.photo = {1100, 900};
    table.pixels_per_mm = 5;
    const cv::Mat bread = made::photo_of_bread(
        table, {made::bread_of(made::placed(made::tin_loaf(100, 80), {110, 160}))});
    made::Camera camera;
    camera.photo = table.photo;
    camera.height_mm = camera.focal_px() / table.pixels_per_mm;
    const cv::Point2d first_marker(40, 24);
    camera.foot_mm = cv::Point2d(110, 90) - first_marker;
    cv::Mat grey = made::photo_of({{{8, 9}, {}, 1}}, camera), ink;
    cv::Mat photo = bread.clone();
    cv::merge(std::vector<cv::Mat>{grey, grey, grey}, ink);
    ink.copyTo(photo, grey < 200);
    return photo;
}

// A slice as thin as paper on an A4 mat, seen from straight above.
cv::Mat photo_with_mat(const std::vector<int>& ids = {0, 1, 2, 3}) {
    made::Table table;
    table.photo = {1050, 1450};
    table.pixels_per_mm = 5;
    cv::Mat photo = made::photo_of_bread(
        table, {made::bread_of(made::placed(made::tin_loaf(100, 80), {105, 190}))});
    made::Camera camera;
    camera.photo = table.photo;
    camera.height_mm = camera.focal_px() / table.pixels_per_mm;
    camera.foot_mm = {83, 123};
    const cv::Mat grey = made::photo_of({{ids, {}, 1}}, camera);
    cv::Mat ink;
    cv::merge(std::vector<cv::Mat>{grey, grey, grey}, ink);
    ink.copyTo(photo, grey < 200);
    return photo;
}

bool warns(const PhotoReading& reading, WarningCode code) {
    return std::any_of(reading.warnings.begin(), reading.warnings.end(),
                       [&](const Warning& w) { return w.code == code; });
}

const SliceReading& only_slice(const Measurement& measurement) {
    REQUIRE(measurement.reading.slices.size() == 1);
    return measurement.reading.slices.front();
}

double value(const SliceReading& slice, Measure measure) {
    REQUIRE(slice.values.contains(measure));
    return slice.values.at(measure).value;
}

std::string refusal(const MeasureOptions& options) {
    try {
        options.check();
    } catch (const std::invalid_argument& error) {
        return error.what();
    }
    return "accepted";
}

TEST_CASE("options that cannot be are refused by name and range") {
    MeasureOptions options;
    CHECK(refusal(options) == "accepted");
    for (const double mm : {-1.0, 301.0, std::nan("")}) {
        options.thickness = {Millimetres(15), Millimetres(mm)};
        CHECK(refusal(options) == "a slice's thickness lies between 0 and 300 mm");
    }
    options = {};
    for (const double mm : {9.0, 1001.0, std::nan("")}) {
        options.loaf_width = Millimetres(mm);
        CHECK(refusal(options) == "a loaf's width lies between 10 and 1000 mm");
    }
    options = {};
    for (const double mm : {49.0, 151.0}) {
        options.print_check = Millimetres(mm);
        CHECK(refusal(options) == "the printed 100 mm line measures between 50 and 150 mm");
    }
    options = {};
    options.base.kind = BaseHint::Kind::line;
    CHECK(refusal(options) == "a base line needs its two points");
    options.base.line = {{{10, 10}, {12, 10}}};
    CHECK(refusal(options) == "the base line's two points lie at least 10 pixels apart");
    options.base.line = {{{10, 10}, {200, 10}}};
    CHECK(refusal(options) == "accepted");
}

TEST_CASE("options are refused before the photo is read") {
    MeasureOptions options;
    options.loaf_width = Millimetres(1);
    CHECK_THROWS_AS(measure_photo("/no/such/photo.jpg", options), std::invalid_argument);
    CHECK_THROWS_AS(measure_photo("/no/such/photo.jpg"), Error);
}

TEST_CASE("a photo without bread gives a reading without slices") {
    const Measurement empty = measured(made::photo_of_bread(board(), {}));
    CHECK(empty.reading.slices.empty());
    CHECK(empty.reading.photo == "slice.jpg");
    CHECK(empty.reading.analysis_version == analysis_version());
    CHECK(empty.overlays.empty());
}

TEST_CASE("without a scale there is no measure in mm, and the reading says why") {
    const Measurement result = measured(plain_photo());
    const SliceReading& slice = only_slice(result);
    for (const auto& [measure, estimate] : slice.values) {
        CAPTURE(info_of(measure).key);
        CHECK(std::set<std::string_view>{"mm", "mm2", "1/cm2"}.count(info_of(measure).unit) == 0);
    }
    CHECK(result.reading.scale.source == ScaleSource::none);
    CHECK_FALSE(result.reading.scale.mm_per_pixel);
    CHECK(warns(result.reading, WarningCode::no_target));
    CHECK(warns(result.reading, WarningCode::assumed_width));
    CHECK(value(slice, Measure::openness) > 0);
    CHECK(value(slice, Measure::height_to_width) == Approx(0.8).epsilon(0.01));
    CHECK(value(slice, Measure::cell_diameter_relative_number_d50) > 0);
    // Cells lie within the loaf: their places are shares of its height.
    for (const Cell& cell : slice.cells)
        CHECK((cell.centre.x < 2 && cell.centre.y < 2));
}

TEST_CASE("a known width gives millimetres") {
    MeasureOptions options;
    options.loaf_width = Millimetres(100);
    const Measurement result = measured(plain_photo(), options);
    const SliceReading& slice = only_slice(result);
    CHECK(result.reading.scale.source == ScaleSource::known_length);
    CHECK(warns(result.reading, WarningCode::known_length_only));
    CHECK(value(slice, Measure::loaf_width) == Approx(100).epsilon(0.01));
    CHECK(value(slice, Measure::loaf_height) == Approx(80).epsilon(0.01));
    CHECK(value(slice, Measure::cross_section_area) ==
          Approx(area_inside(loaf.outline)).epsilon(0.02));
    CHECK_FALSE(slice.values.contains(Measure::cell_diameter_relative_number_d50));
    // Room for a tilt of 15 degrees: 1 / cos 15 degrees is 1.035.
    const Estimate& height = slice.values.at(Measure::loaf_height);
    CHECK(height.high - height.value > 0.035 * height.value);
    CHECK(height.value - height.low > 0.035 * height.value);
}

TEST_CASE("a known width holds for the outline that is measured, not for the rough one") {
    MeasureOptions options;
    options.loaf_width = Millimetres(118);
    const Measurement result = measured(plain_photo(), options);
    CHECK(value(only_slice(result), Measure::loaf_width) == Approx(118).epsilon(0.001));
    CHECK(value(only_slice(result), Measure::loaf_height) == Approx(0.8 * 118).epsilon(0.005));
    REQUIRE(result.reading.scale.mm_per_pixel);
    CHECK(result.reading.scale.mm_per_pixel->value == Approx(1.18 / 6).epsilon(0.005));
}

TEST_CASE("a blurred photo keeps its lengths and loses the measures of its cells") {
    const Measurement result = measured(made::out_of_focus(photo_with_strip(), 4.5));
    const SliceReading& slice = only_slice(result);
    CHECK(warns(result.reading, WarningCode::blurred));
    CHECK(value(slice, Measure::loaf_height) == Approx(80).epsilon(0.02));
    CHECK_FALSE(slice.values.contains(Measure::openness));
    CHECK(slice.cells.empty());
    CHECK_FALSE(warns(measured(photo_with_strip()).reading, WarningCode::blurred));
}

TEST_CASE("a photo of few pixels a millimetre says that small cells are lost") {
    CHECK(warns(measured(photo_with_mat()).reading, WarningCode::low_resolution));  // five
    MeasureOptions options;
    options.loaf_width = Millimetres(90);
    CHECK_FALSE(  // 6.7
        warns(measured(plain_photo(), options).reading, WarningCode::low_resolution));
}

TEST_CASE("a loaf cut within the hour is flagged, one that cooled is not") {
    MeasureOptions options;
    options.since_oven = Hours(0.75);
    CHECK(warns(measured(plain_photo(), options).reading, WarningCode::cut_warm));
    options.since_oven = Hours(2);
    CHECK_FALSE(warns(measured(plain_photo(), options).reading, WarningCode::cut_warm));
}

TEST_CASE("a photo mirrored with its mat says why it has no scale") {
    cv::Mat photo;
    cv::flip(photo_with_mat(), photo, 1);
    const Measurement result = measured(photo);
    CHECK(result.reading.scale.source == ScaleSource::none);
    CHECK(warns(result.reading, WarningCode::target_mirrored));
    CHECK(warns(result.reading, WarningCode::no_target));
}

TEST_CASE("one marker alone measures, with a warning and a wide interval that holds") {
    MeasureOptions options;
    options.thickness = {Millimetres(0)};
    const auto height = [&](const std::vector<int>& ids) {
        const Measurement result = measured(photo_with_mat(ids), options);
        CHECK(warns(result.reading, WarningCode::target_partly_hidden) == (ids.size() < 4));
        return only_slice(result).values.at(Measure::loaf_height);
    };
    const Estimate four = height({0, 1, 2, 3}), one = height({0});
    CHECK(one.high - one.low > 1.5 * (four.high - four.low));
    CHECK(one.low < 80);
    CHECK(one.high > 80);
    CHECK(four.value == Approx(80).epsilon(0.01));
}

TEST_CASE("with a strip in the plane of the cut, the slice has its true size") {
    const Measurement result = measured(photo_with_strip());
    const SliceReading& slice = only_slice(result);
    CHECK(result.reading.scale.source == ScaleSource::strip);
    CHECK(value(slice, Measure::loaf_width) == Approx(100).epsilon(0.005));
    CHECK(value(slice, Measure::loaf_height) == Approx(80).epsilon(0.005));
    CHECK(value(slice, Measure::base_width) == Approx(100).epsilon(0.01));
    CHECK(value(slice, Measure::cross_section_area) ==
          Approx(area_inside(loaf.outline)).epsilon(0.01));
}

TEST_CASE("every value lies within its interval") {
    const SliceReading slice = only_slice(measured(photo_with_strip()));
    for (const auto& [measure, estimate] : slice.values) {
        CAPTURE(info_of(measure).key);
        CHECK(estimate.low <= estimate.value);
        CHECK(estimate.value <= estimate.high);
    }
}

TEST_CASE("equal photos give equal readings") {
    CHECK(measured(plain_photo()).reading == measured(plain_photo()).reading);
}

TEST_CASE("two slices are read left to right, and the reading says that there are two") {
    made::Table table = board();
    table.photo = {1200, 600};
    const auto at = [](double x, double width) {
        const Polyline outline = made::placed(made::tin_loaf(width, 70), {x, 88});
        return made::Bread{outline, 2, made::scattered(outline, {300, 1, 3, 2.2}, 5)};
    };
    const Measurement result = measured(made::photo_of_bread(table, {at(150, 85), at(55, 75)}));
    REQUIRE(result.reading.slices.size() == 2);
    CHECK(warns(result.reading, WarningCode::several_slices));
    CHECK(result.reading.slices[0].outline[0].x < 600);
    CHECK(result.reading.slices[1].outline[0].x > 600);
}

TEST_CASE("of a slice that the photo cuts, crumb is measured and shape is not") {
    const made::Bread cut = made::bread_of(made::placed(made::dome(130, 95), {25, 105}));
    const Measurement result = measured(made::photo_of_bread(board(), {cut}));
    const SliceReading& slice = only_slice(result);
    CHECK(slice.cut_by_frame);
    CHECK(warns(result.reading, WarningCode::cut_by_frame));
    CHECK_FALSE(slice.values.contains(Measure::height_to_width));
    CHECK(slice.values.contains(Measure::openness));
}

TEST_CASE("a base that is pointed out is taken instead of the one found") {
    // The tin loaf's left side, in photo pixels, as its base.
    MeasureOptions options;
    options.base.kind = BaseHint::Kind::line;
    options.base.line = {{{180, 620}, {180, 300}}};
    const SliceReading aside = only_slice(measured(plain_photo(), options));
    CHECK(value(aside, Measure::height_to_width) == Approx(100.0 / 80).epsilon(0.02));
    options = {};
    options.base.kind = BaseHint::Kind::bottom;
    CHECK(value(only_slice(measured(plain_photo(), options)), Measure::height_to_width) ==
          Approx(0.8).epsilon(0.01));
}

TEST_CASE("where the base is in doubt, the intervals hold the other side's height too") {
    const Polyline block = {{-45, -35}, {45, -35}, {45, 35}, {-45, 35}};  // 90 mm by 70
    MeasureOptions options;
    options.loaf_width = Millimetres(90);
    const auto read = [&](double turn) {
        return measured(made::photo_of_bread(board(),
                                             {made::bread_of(made::placed(block, {80, 60}, turn))}),
                        options)
            .reading;
    };
    const PhotoReading turned = read(42);
    CHECK(warns(turned, WarningCode::base_in_doubt));
    REQUIRE(turned.slices.size() == 1);
    const Estimate& ratio = turned.slices[0].values.at(Measure::height_to_width);
    CHECK(ratio.low < 70.0 / 90);
    CHECK(ratio.high > 90.0 / 70);
    CHECK_FALSE(warns(read(3), WarningCode::base_in_doubt));
}

TEST_CASE("pictures are made when asked for, and agree with each other") {
    MeasureOptions options;
    options.overlay = options.label_map = options.slice_picture = true;
    const Measurement result = measured(photo_with_strip(), options);
    const SliceReading& slice = only_slice(result);
    REQUIRE(result.overlays.size() == 1);
    REQUIRE(result.maps.size() == 1);
    REQUIRE(result.slice_pictures.size() == 1);
    const SliceMaps& maps = result.maps[0];
    CHECK(maps.mm_per_pixel->count() == 0.1);
    CHECK(maps.cells.width == maps.slice.width);
    CHECK(maps.cells.height == maps.crumb.height);
    CHECK(result.overlays[0].height == maps.cells.height);
    CHECK(*std::max_element(maps.cells.labels.begin(), maps.cells.labels.end()) ==
          slice.cells.size());
    const auto inside = std::count(maps.slice.labels.begin(), maps.slice.labels.end(), 1);
    CHECK(static_cast<double>(inside) * 0.01 ==
          Approx(value(slice, Measure::cross_section_area)).epsilon(0.01));
    const SlicePicture& picture = result.slice_pictures[0];
    REQUIRE(picture.mm_per_pixel);
    CHECK(picture.picture.width * picture.mm_per_pixel->count() == Approx(100 + 6).margin(1));
    CHECK(picture.picture.height * picture.mm_per_pixel->count() == Approx(80 + 3).margin(1));
    // Cut out along its outline it is as wide as the slice, and stands on the picture's lower edge.
    const auto [left, right] = std::ranges::minmax(picture.outline, {}, &PicturePoint::x);
    CHECK((right.x - left.x) * picture.mm_per_pixel->count() ==
          Approx(value(slice, Measure::loaf_width)).margin(0.5));
    const double top = std::ranges::min(picture.outline, {}, &PicturePoint::y).y;
    CHECK((picture.picture.height - top) * picture.mm_per_pixel->count() ==
          Approx(value(slice, Measure::loaf_height)).margin(0.5));
    CHECK(picture.balanced);
    options.overlay_legend = false;
    CHECK(measured(photo_with_strip(), options).overlays[0].width == maps.cells.width);
}

TEST_CASE("what a photo can tell is all built, and a reading warns of nothing to come") {
    for (const MeasureInfo& info : measure_catalogue)
        if (info.origin == MeasureOrigin::photo) CHECK(info.state == MeasureState::built);
    CHECK_FALSE(warns(measured(plain_photo()).reading, WarningCode::not_yet));
}

}  // namespace
}  // namespace loafmark::analysis
