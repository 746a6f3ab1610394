#include "shape.h"

#include <cmath>
#include <numbers>

#include "catch.h"
#include "made_bread.h"

namespace loafmark::analysis {
namespace {

constexpr double pi = std::numbers::pi;
const BaseLine flat{{-60, 0}, {60, 0}, 0};

Polyline rectangle() {
    return resampled({{-50, -60}, {50, -60}, {50, 0}, {-50, 0}}, 0.5);
}

TEST_CASE("a rectangle's shape is its sides") {
    const Shape shape = shape_of(rectangle(), flat);
    CHECK(shape.height == Approx(60));
    CHECK(shape.width == Approx(100));
    CHECK(shape.base_width == Approx(100));
    CHECK(shape.area == Approx(6000));
    CHECK(shape.perimeter == Approx(320).epsilon(0.01));
}

TEST_CASE("a half disc's shape follows from its radius") {
    const Shape shape = shape_of(made::dome(100, 50), flat);
    CHECK(shape.height == Approx(50).margin(0.01));
    CHECK(shape.width == Approx(100).margin(0.1));
    CHECK(shape.area == Approx(pi * 50 * 50 / 2).epsilon(0.001));
    CHECK(cv::norm(shape.crown - cv::Point2d(0, -50)) < 0.6);
    CHECK(cv::norm(shape.crown_foot - cv::Point2d(shape.crown.x, 0)) < 1e-6);
}

TEST_CASE("the base is as wide as the outline's lowest fiftieth") {
    // A disc of radius 50 whose base cuts it 30 below its middle: 80 high, and 1.6 above the base
    // it is 2 sqrt(50^2 - 28.4^2) wide.
    Polyline loaf;
    for (int i = 0; i < 7200; ++i) {
        const cv::Point2d p(50 * std::cos(i * pi / 3600), -30 + 50 * std::sin(i * pi / 3600));
        if (p.y <= 0) loaf.push_back(p);
    }
    const Shape shape = shape_of(loaf, flat);
    CHECK(shape.height == Approx(80).margin(0.01));
    CHECK(shape.width == Approx(100).margin(0.01));
    CHECK(shape.base_width == Approx(2 * std::sqrt(2500 - 28.4 * 28.4)).margin(0.1));
}

TEST_CASE("a slice that stands aslant is measured along its own base line") {
    const Polyline aslant = made::placed(rectangle(), {0, 0}, 5);
    const cv::Point2d along(std::cos(5 * pi / 180), std::sin(5 * pi / 180));
    const Shape shape = shape_of(aslant, {-60 * along, 60 * along, 0});
    CHECK(shape.height == Approx(60));
    CHECK(shape.width == Approx(100));
    CHECK(shape.base_width == Approx(100));
}

TEST_CASE("the scale's error counts once for lengths, twice for areas and never for ratios") {
    const MeasureValues values = shape_values(shape_of(rectangle(), flat), {}, 0.01, 0);
    const auto half_width = [&](Measure m) {
        const Estimate& e = values.at(m);
        CHECK(e.high - e.value == Approx(e.value - e.low).margin(1e-9));
        return (e.high - e.low) / 2 / e.value;
    };
    CHECK(half_width(Measure::loaf_height) == Approx(0.0196).epsilon(0.001));
    CHECK(half_width(Measure::loaf_width) == Approx(0.0196).epsilon(0.001));
    CHECK(half_width(Measure::cross_section_area) == Approx(0.0392).epsilon(0.001));
    CHECK(half_width(Measure::height_to_width) == Approx(0).margin(1e-12));
    CHECK(values.at(Measure::height_to_width).value == Approx(0.6));
}

TEST_CASE("an unsure edge widens every interval") {
    const Shape shape = shape_of(rectangle(), flat);
    const MeasureValues sure = shape_values(shape, {}, 0.01, 0),
                        unsure = shape_values(shape, {}, 0.01, 0.5);
    REQUIRE(unsure.size() == 6);
    for (const auto& [measure, estimate] : unsure) {
        CAPTURE(info_of(measure).key);
        CHECK(estimate.value == sure.at(measure).value);
        // No waist is less than none.
        if (measure != Measure::side_pinch) CHECK(estimate.low < sure.at(measure).low);
        CHECK(estimate.high > sure.at(measure).high);
    }
}

TEST_CASE("what other weights of the edge say widens the intervals of what they move") {
    const Shape shape = shape_of(rectangle(), flat);
    Shape higher = shape, lower = shape;
    higher.height += 3, lower.height -= 4;
    const Shape spread = spread_of(shape, {higher, lower});
    CHECK(spread.height == Approx(std::sqrt((9 + 16) / 2.0)));
    CHECK(spread.width == 0);
    const MeasureValues values = shape_values(shape, spread, 0, 0);
    const Estimate& height = values.at(Measure::loaf_height);
    CHECK(height.high - height.value == Approx(1.959964 * spread.height));
    CHECK(values.at(Measure::loaf_width).high == Approx(values.at(Measure::loaf_width).value));
    CHECK(spread_of(shape, {}).height == 0);
}

}  // namespace
}  // namespace loafmark::analysis
