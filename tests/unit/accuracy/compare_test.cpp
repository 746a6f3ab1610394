#include "compare.h"

#include <algorithm>

#include "catch.h"

using namespace loafmark;
using namespace loafmark::accuracy;

namespace {

constexpr double px_per_mm = 10;

std::vector<PlanePoint> box(double width, double height) {
    return {{-width / 2, 0}, {width / 2, 0}, {width / 2, -height}, {-width / 2, -height}};
}

// A true slice 100 mm wide and 80 mm high, its base's middle at (x, 1000) in the photo.
TrueSlice true_slice(double x) {
    TrueSlice slice;
    slice.outline = box(100, 80);
    slice.measures = {{Measure::loaf_height, 80}, {Measure::loaf_width, 100}};
    slice.photo_from_slice = {{{px_per_mm, 0, x}, {0, px_per_mm, 1000}, {0, 0, 1}}};
    return slice;
}

SliceReading found_slice(double x, double width, double height) {
    SliceReading slice;
    for (const PlanePoint& p : box(width, height))
        slice.outline.push_back({x + px_per_mm * p.x, 1000 + px_per_mm * p.y});
    slice.values[Measure::loaf_height] = {height, height - 1, height + 1, {}, {}};
    slice.values[Measure::loaf_width] = {width, width - 1, width + 1, {}, {}};
    return slice;
}

const Outcome& outcome(const SliceComparison& slice, std::string_view title) {
    const auto at = std::find_if(figures.begin(), figures.end(),
                                 [&](const Figure& figure) { return figure.title == title; });
    return slice.outcomes.at(static_cast<std::size_t>(at - figures.begin()));
}

}  // namespace

TEST_CASE("each true slice is compared with the find that lies on it") {
    Truth truth;
    truth.photo = "two.jpg";
    truth.slices = {true_slice(600), true_slice(1800)};
    analysis::Measurement measured;
    measured.reading.slices = {found_slice(1800, 100.5, 80), found_slice(600, 100, 82)};
    const PhotoComparison photo = compare(truth, measured);
    CHECK(photo.all_found());
    CHECK_FALSE(photo.slices[0].failure);
    CHECK(*outcome(photo.slices[0], "height %").error == Approx(0.025));
    CHECK(*outcome(photo.slices[1], "height %").error == Approx(0));
    CHECK(*outcome(photo.slices[1], "width %").error == Approx(0.005));
    CHECK(*outcome(photo.slices[1], "outline IoU").error == Approx(100 / 100.5).epsilon(1e-3));
}

TEST_CASE("an interval that lacks the truth is told from one that holds it") {
    Truth truth;
    truth.slices = {true_slice(600)};
    analysis::Measurement measured;
    measured.reading.slices = {found_slice(600, 100.5, 82)};
    const SliceComparison slice = compare(truth, measured).slices[0];
    CHECK(outcome(slice, "height %").covered == false);
    CHECK(outcome(slice, "width %").covered == true);
    CHECK(outcome(slice, "height %").half_width == Approx(1.0 / 80));
    CHECK_FALSE(outcome(slice, "outline IoU").covered);
}

TEST_CASE("a slice that was not found misses every figure, and its interval with it") {
    Truth truth;
    truth.slices = {true_slice(600), true_slice(1800)};
    analysis::Measurement measured;
    // One find over both slices overlaps neither by half.
    measured.reading.slices = {found_slice(1200, 240, 80)};
    const PhotoComparison photo = compare(truth, measured);
    CHECK_FALSE(photo.all_found());
    for (const SliceComparison& slice : photo.slices) {
        REQUIRE(slice.failure);
        CHECK(slice.failure->starts_with("not found"));
        CHECK(outcome(slice, "height %").asked);
        CHECK_FALSE(outcome(slice, "height %").error);
        CHECK(outcome(slice, "height %").covered == false);
    }
}

TEST_CASE("a measure that the reading lacks is missed with the reason that it was given") {
    Truth truth;
    truth.slices = {true_slice(600)};
    analysis::Measurement measured;
    measured.reading.slices = {found_slice(600, 100, 80)};
    measured.reading.slices[0].values.erase(Measure::loaf_height);
    measured.reading.warnings = {{WarningCode::no_target, "no target", {}, std::nullopt}};
    const SliceComparison slice = compare(truth, measured).slices[0];
    CHECK(slice.failure == "no height %: warned of no_target");
    CHECK_FALSE(outcome(slice, "height %").error);
    CHECK(outcome(slice, "width %").error);
}

TEST_CASE("nothing is asked that the truth does not know") {
    Truth truth;
    truth.slices = {true_slice(600)};
    analysis::Measurement measured;
    measured.reading.slices = {found_slice(600, 100, 80)};
    const SliceComparison slice = compare(truth, measured).slices[0];
    CHECK_FALSE(outcome(slice, "area %").asked);
    CHECK_FALSE(outcome(slice, "openness").asked);
    CHECK_FALSE(outcome(slice, "cell F1").asked);
}

TEST_CASE("one find too many is told") {
    Truth truth;
    truth.slices = {true_slice(600)};
    analysis::Measurement measured;
    measured.reading.slices = {found_slice(600, 100, 80), found_slice(2000, 20, 10)};
    CHECK_FALSE(compare(truth, measured).all_found());
}
