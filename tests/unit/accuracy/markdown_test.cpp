#include "markdown.h"

#include "catch.h"

using namespace loafmark::accuracy;

namespace {

bool holds(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

PhotoComparison photo() {
    PhotoComparison photo{"a.jpg", "blue mat; wood", 1, {SliceComparison{}, SliceComparison{}}};
    photo.slices[0].outcomes[0] = {true, 0.0051, true, 0.01};
    photo.slices[1].failure = "not found: 1 find, none overlaps it by half";
    photo.slices[1].outcomes[0] = {true, {}, false, 0};
    return photo;
}

}  // namespace

TEST_CASE("a set's table names its misses and puts goals beside the figures") {
    const std::string text = markdown_of_set("shape", {photo(), photo()}, Detail::misses);
    CHECK(holds(text, "### shape"));
    CHECK(holds(text, "2 photos, 4 slices; just the slices that are there were found in 0 of 2"));
    CHECK(holds(text, "| height % | 4 | 2 | missed | 0.4 | 0.51 | 1.5 | 0.500 (2 of 4) | 1.00 |"));
    CHECK(holds(text, "- a.jpg (blue mat; wood), slice 2: not found: 1 find"));
    CHECK_FALSE(holds(text, "width %"));  // nobody asked
    CHECK_FALSE(holds(text, "| a.jpg, slice 1"));
    CHECK_FALSE(holds(markdown_of_set("all", {photo()}, Detail::medians), "not found"));
}

TEST_CASE("each slice has a row when it is wanted") {
    const std::string text = markdown_of_set("shape", {photo()}, Detail::slices);
    CHECK(holds(text, "| a.jpg, slice 1 | blue mat; wood | +0.51 |"));
    CHECK(holds(text, "| a.jpg, slice 2 | blue mat; wood | missed |"));
}

TEST_CASE("changed photos are summed up by their change, measures that moved by name") {
    const std::string text = markdown_of_invariance(
        {{"a.half.jpg", "half the resolution", 6, {"loaf_height"}},
         {"b.half.jpg", "half the resolution", 6, {"loaf_height", "base_width"}},
         {"a.tilted.jpg", "tilted by 20 degrees", 20, {}}});
    CHECK(holds(text, "| half the resolution | 2 | 12 | 3 | base_width 1, loaf_height 2 |"));
    CHECK(holds(text, "| tilted by 20 degrees | 1 | 20 | 0 |  |"));
}
