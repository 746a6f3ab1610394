// The crumb in square tiles laid along the base line: how uneven it is.
#pragma once

#include <optional>
#include <vector>

#include <opencv2/core.hpp>

#include "base_frame.h"
#include "cell_map.h"

namespace loafmark::analysis {

struct Tile {
    double crumb = 0, open = 0, cavity = 0;  // pixels
    double edges = 0;                        // neighbours of which one is solid, one cell
    double inside = 0;                       // share of the tile that is crumb, 0 to 1
};

struct Tiling {
    double side = 0;  // working units
    std::vector<Tile> tiles;
    cv::Mat tile_of;  // CV_32S, a tile's number at each pixel of the crumb, -1 elsewhere
};

// The larger of 10 mm and three times the coarseness (0 where there is none), in working units.
[[nodiscard]] double tile_side(double coarseness, double units_per_mm = 1);

// Tiles of that side, from the base line's middle to both sides and upwards. All that hold crumb.
[[nodiscard]] Tiling tiles_of(const CellMap& cells, const BaseFrame& frame, double side);

// Standard deviation (n - 1) of the tiles' openness over its mean, of tiles that lie at least three
// quarters inside; nothing with fewer than four of these, or without openings.
[[nodiscard]] std::optional<double> unevenness(const std::vector<Tile>& tiles);

// The same for these cells placed at random in the same crumb: the median of 200 shuffles. Larger
// cells are placed first, and keep clear of each other where a few tries find room. The same seed
// gives the same answer.
[[nodiscard]] std::optional<double> unevenness_expected(const CellMap& cells, const Tiling& tiling,
                                                        unsigned seed = 1);

}  // namespace loafmark::analysis
