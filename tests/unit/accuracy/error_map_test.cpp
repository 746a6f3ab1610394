#include "error_map.h"

#include "catch.h"

using namespace loafmark;
using namespace loafmark::accuracy;

TEST_CASE("the error map colours what was found, missed and made up, in the crumb alone") {
    analysis::SliceMaps maps;
    maps.cells = {4, 1, {0, 0, 0, 0}};
    maps.crumb = {4, 1, {1, 1, 1, 0}};
    maps.photo = {4, 1, std::vector<std::uint8_t>(12, 100)};
    const Picture map = error_map(maps, {1, 1, 0, 3}, {7, 0, 8, 0});
    const auto pixel = [&](std::size_t i) {
        return std::array<int, 3>{map.rgb[3 * i], map.rgb[3 * i + 1], map.rgb[3 * i + 2]};
    };
    CHECK(pixel(0)[2] > pixel(0)[0]);                        // blue: both
    CHECK(pixel(1)[0] > pixel(1)[2] + 50);                   // vermilion: missed
    CHECK((pixel(2)[0] > 150 && pixel(2)[1] > 150));         // yellow: not there
    CHECK((pixel(3) == std::array<int, 3>{100, 100, 100}));  // outside the crumb
}

TEST_CASE("the error map draws a wall that only one of both has, and none round the end of a row") {
    analysis::SliceMaps maps;
    maps.cells = {3, 2, std::vector<std::uint16_t>(6, 0)};
    maps.crumb = {3, 2, std::vector<std::uint16_t>(6, 1)};
    maps.photo = {3, 2, std::vector<std::uint8_t>(18, 100)};
    // Truth parts the first column from the second; the last pixel of a row does not touch the
    // first of the next.
    const Picture map = error_map(maps, {1, 2, 2, 1, 2, 2}, {7, 7, 7, 7, 7, 7});
    const auto dark = [&](std::size_t i) { return map.rgb[3 * i + 2] < 60; };
    CHECK(dark(0));
    CHECK_FALSE(dark(1));
    CHECK_FALSE(dark(2));
    CHECK(dark(3));
}
