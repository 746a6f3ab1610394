#include "tiles.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace loafmark::analysis {
namespace {

constexpr double least_side = 10, coarseness_times = 3;
constexpr double least_inside = 0.75;
constexpr std::size_t least_tiles = 4;

bool open(uchar matter) {
    return matter >= static_cast<uchar>(Matter::cell);
}

// Neighbours, to the right and below, of which one is solid and one a cell.
int edges_at(const uchar* row, const uchar* below, int x, int columns) {
    const uchar here = row[x];
    int edges = 0;
    if (x + 1 < columns && row[x + 1] != 0) edges += open(row[x + 1]) != open(here);
    if (below && below[x] != 0) edges += open(below[x]) != open(here);
    return edges;
}

// Pixels met one after the other in one tile.
struct Run {
    int crumb = 0, open = 0, cavity = 0, edges = 0;

    void add_to(Tile& tile) const {
        tile.crumb += crumb, tile.open += open, tile.cavity += cavity, tile.edges += edges;
    }
};

}  // namespace

double tile_side(double coarseness, double units_per_mm) {
    return std::max(least_side * units_per_mm, coarseness_times * coarseness);
}

Tiling tiles_of(const CellMap& cells, const BaseFrame& frame, double side) {
    Tiling tiling;
    tiling.side = side;
    const cv::Mat& matter = cells.matter;
    tiling.tile_of = cv::Mat(matter.size(), CV_32S, cv::Scalar(-1));
    std::map<std::pair<int, int>, int> numbers;
    std::pair<int, int> last_place{1 << 20, 0};
    int last = -1;
    Run run;
    const auto end_run = [&] {
        if (last >= 0) run.add_to(tiling.tiles[static_cast<std::size_t>(last)]);
        run = {};
    };
    const double right = frame.along.x * frame.unit_per_pixel / side,
                 up = frame.up.x * frame.unit_per_pixel / side;
    for (int y = 0; y < matter.rows; ++y) {
        const uchar* row = matter.ptr<uchar>(y);
        const uchar* below = y + 1 < matter.rows ? matter.ptr<uchar>(y + 1) : nullptr;
        int* number = tiling.tile_of.ptr<int>(y);
        double across = frame.aside(0, y) / side, above = frame.above(0, y) / side;
        for (int x = 0; x < matter.cols; ++x, across += right, above += up) {
            if (row[x] == static_cast<uchar>(Matter::outside)) continue;
            const std::pair place(floored(across), floored(above));
            if (place != last_place) {
                end_run();
                const auto [found, is_new] =
                    numbers.try_emplace(place, static_cast<int>(tiling.tiles.size()));
                if (is_new) tiling.tiles.emplace_back();
                last = found->second;
                last_place = place;
            }
            number[x] = last;
            run.crumb += 1;
            run.open += open(row[x]) ? 1 : 0;
            run.cavity += row[x] == static_cast<uchar>(Matter::cavity) ? 1 : 0;
            run.edges += edges_at(row, below, x, matter.cols);
        }
    }
    end_run();
    const double whole = std::pow(side / frame.unit_per_pixel, 2);
    for (Tile& tile : tiling.tiles)
        tile.inside = std::min(1.0, tile.crumb / whole);
    return tiling;
}

std::optional<double> unevenness(const std::vector<Tile>& tiles) {
    double sum = 0, squares = 0, n = 0;
    for (const Tile& tile : tiles) {
        if (tile.inside < least_inside) continue;
        const double openness = tile.open / tile.crumb;
        sum += openness, squares += openness * openness, n += 1;
    }
    if (n < static_cast<double>(least_tiles) || sum <= 0) return std::nullopt;
    const double mean = sum / n;
    return std::sqrt(std::max(0.0, (squares - n * mean * mean) / (n - 1))) / mean;
}

}  // namespace loafmark::analysis
