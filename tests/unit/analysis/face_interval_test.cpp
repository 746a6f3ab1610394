#include "face_interval.h"

#include "catch.h"

namespace loafmark::analysis {
namespace {

TEST_CASE("known error, other views and scale join as roots of sums of squares") {
    ErrorSources sources;
    sources.known.path_least = 0.97, sources.known.path_most = 1.03;
    sources.length_error = 0.04 / 1.959963984540054;  // 4 % at 95 %
    const Estimate e = face_interval(Measure::mean_free_path, 2, {2.1, 1.95}, sources);
    CHECK(e.value == 2);
    CHECK(e.low == Approx(2 - std::hypot(0.06, 0.05, 0.08)));
    CHECK(e.high == Approx(2 + std::hypot(0.06, 0.1, 0.08)));
}

TEST_CASE("the scale does not move a ratio, and moves an area's twice") {
    ErrorSources sources;
    sources.length_error = 0.01;
    const Estimate ratio = face_interval(Measure::unevenness, 0.2, {}, sources);
    CHECK(ratio.low == ratio.high);
    const Estimate density = face_interval(Measure::cells_per_cm2, 20, {}, sources);
    CHECK(density.high - density.value == Approx(2 * 0.0196 * 20).epsilon(1e-3));
}

TEST_CASE("an interval ends where the measure cannot go on") {
    ErrorSources sources;
    sources.known.openness_above = sources.known.openness_below = 0.2;
    sources.known.axis_ratio_below = 1;
    sources.known.span_most = 3;
    CHECK(face_interval(Measure::openness, 0.1, {}, sources).low == 0);
    CHECK(face_interval(Measure::openness, 0.9, {}, sources).high == 1);
    CHECK(face_interval(Measure::cell_axis_ratio, 1.4, {}, sources).low == 1);
    CHECK(face_interval(Measure::relative_span, 2, {}, sources).high == Approx(6));
}

TEST_CASE("a direction is as sure as the cells are parallel, and its low may lie above its high") {
    ErrorSources sources;
    sources.known.strength = 0.1;
    sources.strength = 0.8;
    const Estimate sure = face_interval(Measure::cell_direction, 2, {1.5}, sources);
    CHECK(sure.low > 170);
    CHECK(sure.high < 10);
    sources.strength = 0.2;
    const Estimate less = face_interval(Measure::cell_direction, 90, {}, sources);
    CHECK(less.high - less.low == Approx(30));  // asin(1/2) / 2 to either side
    sources.strength = 0.05;
    const Estimate none = face_interval(Measure::cell_direction, 90, {}, sources);
    CHECK(none.low == 0);
    CHECK(none.high == 180);
    // 179 and 1 degree are near to each other.
    sources.strength = 1;
    const Estimate turned = face_interval(Measure::cell_direction, 179, {1}, sources);
    CHECK(turned.low > 170);
}

}  // namespace
}  // namespace loafmark::analysis
