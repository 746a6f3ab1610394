#include "invariance.h"

#include "catch.h"

using namespace loafmark;
using namespace loafmark::accuracy;

namespace {

PhotoReading reading(double height, double openness, double limit) {
    SliceReading slice;
    slice.values[Measure::resolved_limit] = {limit, limit, limit, {}, {}};
    slice.values[Measure::loaf_height] = {height, height - 0.5, height + 0.5, {}, {}};
    slice.values[Measure::openness] = {openness, openness - 0.05, openness + 0.05, {}, {}};
    PhotoReading photo;
    photo.slices = {slice};
    return photo;
}

const VariantSet::Variant half{"half the resolution", "a.half.jpg"};

}  // namespace

TEST_CASE("a measure has moved when it lies outside the first photo's interval") {
    const PhotoReading first = reading(80, 0.4, 0.5);
    CHECK(compare_variant(half, first, reading(80.4, 0.43, 0.5)).moved.empty());
    const VariantComparison moved = compare_variant(half, first, reading(80.6, 0.43, 0.5));
    CHECK(moved.compared == 2);
    CHECK(moved.moved == std::vector<std::string>{"loaf_height"});
}

TEST_CASE("crumb measures of different limits are not compared") {
    const VariantComparison result =
        compare_variant(half, reading(80, 0.4, 0.5), reading(80, 0.2, 1));
    CHECK(result.compared == 1);
    CHECK(result.moved.empty());
}

TEST_CASE("where the changed photo shows no slice all measures have moved") {
    const VariantComparison result = compare_variant(half, reading(80, 0.4, 0.5), PhotoReading{});
    CHECK(result.compared == 2);
    CHECK(result.moved.size() == 2);
}
