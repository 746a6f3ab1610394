#include "tiles.h"

#include <algorithm>
#include <random>

#include "catch.h"
#include "drawn_face.h"

namespace loafmark::analysis {
namespace {

TEST_CASE("a tile's side is 10 mm, or three times the coarseness where that is more") {
    CHECK(tile_side(0) == 10);
    CHECK(tile_side(3) == 10);
    CHECK(tile_side(5) == 15);
}

TEST_CASE("tiles run from the base line's middle, and partly filled ones are known") {
    const drawn::Face face = drawn::Face(50, 25).disc(20, 5, 4);
    const Tiling tiling = tiles_of(face.cells(), face.frame(), 10);
    // 25 mm to each side: two whole tiles and a half; two rows and a half.
    CHECK(tiling.tiles.size() == 18);
    CHECK(std::count_if(tiling.tiles.begin(), tiling.tiles.end(),
                        [](const Tile& t) { return t.inside > 0.99; }) == 8);
    const int at = tiling.tile_of.at<int>(200, 200);  // 20 mm along, 5 mm up
    CHECK(tiling.tiles[static_cast<std::size_t>(at)].open == Approx(400 * CV_PI).epsilon(0.01));
}

TEST_CASE("unevenness is the spread of the tiles' openness over its mean") {
    drawn::Face face(40, 20);                                // tiles of 10 mm: two rows of four
    const double open[2][4] = {{1, 2, 3, 4}, {5, 6, 7, 8}};  // mm of a slot of 5 mm
    double sum = 0, squares = 0;
    for (int row = 0; row < 2; ++row)
        for (int i = 0; i < 4; ++i) {
            face.box(10 * i + 2, 10 * row + 1, 5, open[row][i]);
            sum += open[row][i], squares += open[row][i] * open[row][i];
        }
    const double mean = sum / 8, spread = std::sqrt((squares - 8 * mean * mean) / 7);
    const Tiling tiling = tiles_of(face.cells(), face.frame(), 10);
    CHECK(*unevenness(tiling.tiles) == Approx(spread / mean).epsilon(1e-3));
    CHECK_FALSE(unevenness({tiling.tiles.begin(), tiling.tiles.begin() + 3}));
    const drawn::Face solid(40, 20);
    CHECK_FALSE(unevenness(tiles_of(solid.cells(), solid.frame(), 10).tiles));
}

drawn::Face scattered(unsigned seed, int count, bool left_only) {
    drawn::Face face(80, 60);
    std::mt19937 random(seed);
    std::uniform_real_distribution<double> across(2, left_only ? 40 : 78), up(2, 58);
    for (int i = 0; i < count; ++i)
        face.disc(across(random), up(random), 1.6);
    return face;
}

TEST_CASE("cells at random are about as uneven as chance has it, crowded ones much more") {
    double seen = 0, expected = 0;
    for (const unsigned seed : {1u, 2u, 3u, 4u}) {
        const drawn::Face face = scattered(seed, 150, false);
        const CellMap cells = face.cells();
        const Tiling tiling = tiles_of(cells, face.frame(), 10);
        seen += *unevenness(tiling.tiles) / 4;
        expected += *unevenness_expected(cells, tiling) / 4;
    }
    CHECK(seen == Approx(expected).epsilon(0.15));

    const drawn::Face crowded = scattered(5, 150, true);
    const CellMap cells = crowded.cells();
    const Tiling tiling = tiles_of(cells, crowded.frame(), 10);
    CHECK(*unevenness(tiling.tiles) > 1.6 * *unevenness_expected(cells, tiling));
    CHECK(*unevenness_expected(cells, tiling) == *unevenness_expected(cells, tiling));
}

TEST_CASE("expected unevenness of few alike cells is that of a Poisson count") {
    // Of n cells of one size in tiles of which each holds on average m, the counts' spread over
    // their mean is 1 / sqrt(m) (Poisson; m small against n).
    const drawn::Face face = scattered(7, 100, false);  // 48 tiles of 10 mm
    const CellMap cells = face.cells();
    const Tiling tiling = tiles_of(cells, face.frame(), 10);
    const auto count = static_cast<double>(cells.counted_diameters().size());
    // Cells of 2 mm2 on an edge are shared by two tiles, which evens out a little.
    CHECK(*unevenness_expected(cells, tiling) == Approx(1 / std::sqrt(count / 48)).epsilon(0.2));
}

}  // namespace
}  // namespace loafmark::analysis
