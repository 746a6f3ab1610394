#include "loaf_interval.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>
#include <vector>

#include "cell_shapes.h"
#include "quantile.h"

namespace loafmark::analysis {
namespace {

constexpr int rounds = 200;
constexpr std::size_t least_tiles = 4;

struct TiledCell {
    double diameter = 0, pixels = 0, axis_ratio = 1;
    cv::Point2d doubled;  // of its direction; 0 where it has none
    std::size_t tile = 0;
};

std::vector<TiledCell> tiled_cells(const CellMap& cells, const Tiling& tiling,
                                   const BaseFrame& frame) {
    std::vector<TiledCell> list;
    for (std::size_t label = 1; label < cells.counted.size(); ++label) {
        if (!cells.counted[label]) continue;
        const Region& region = cells.regions[label - 1];
        const int tile = tiling.tile_of.at<int>(static_cast<int>(std::lround(region.centroid.y)),
                                                static_cast<int>(std::lround(region.centroid.x)));
        if (tile < 0) continue;
        const Ellipse ellipse = ellipse_of(region, frame);
        list.push_back({cells.diameter(static_cast<int>(label)), static_cast<double>(region.pixels),
                        ellipse.axis_ratio,
                        ellipse.axis_ratio < 1.1 ? cv::Point2d() : ellipse.doubled,
                        static_cast<std::size_t>(tile)});
    }
    std::sort(list.begin(), list.end(),
              [](const TiledCell& a, const TiledCell& b) { return a.diameter < b.diameter; });
    return list;
}

// Measures of a crumb in which each tile stands as often as drawn.
class Redrawn {
  public:
    Redrawn(const std::vector<Tile>& tiles, const std::vector<TiledCell>& cells, double limit,
            double pixel_area)
        : tiles_(tiles), cells_(cells), limit_(limit), pixel_area_(pixel_area) {}

    [[nodiscard]] std::map<Measure, double> values(const std::vector<int>& times) const {
        std::map<Measure, double> values;
        double crumb = 0, open = 0, cavity = 0, edges = 0;
        std::vector<Tile> drawn;
        for (std::size_t t = 0; t < tiles_.size(); ++t) {
            const Tile& tile = tiles_[t];
            crumb += times[t] * tile.crumb, open += times[t] * tile.open;
            cavity += times[t] * tile.cavity, edges += times[t] * tile.edges;
            drawn.insert(drawn.end(), static_cast<std::size_t>(times[t]), tile);
        }
        if (crumb <= 0) return values;
        values[Measure::openness] = open / crumb;
        values[Measure::large_cavity_share] = cavity / crumb;
        if (cavity < crumb) values[Measure::openness_fine] = (open - cavity) / (crumb - cavity);
        // In another unit, which falls out against the face's own.
        if (edges > 0) values[Measure::mean_free_path] = (crumb - open) / edges;
        if (const auto uneven = unevenness(drawn)) values[Measure::unevenness] = *uneven;
        add_cells(times, crumb * pixel_area_, values);
        return values;
    }

  private:
    void add_cells(const std::vector<int>& times, double area,
                   std::map<Measure, double>& values) const {
        std::vector<double> diameters;
        double pixels = 0, moment = 0, ratios = 0, long_pixels = 0;
        cv::Point2d direction;
        for (const TiledCell& cell : cells_) {
            const int n = times[cell.tile];
            if (n == 0) continue;
            diameters.insert(diameters.end(), static_cast<std::size_t>(n), cell.diameter);
            const double held = n * cell.pixels;
            pixels += held, moment += held * cell.diameter, ratios += held * cell.axis_ratio;
            if (cell.axis_ratio >= 1.1) long_pixels += held, direction += held * cell.doubled;
        }
        const auto count = static_cast<double>(diameters.size());
        values[Measure::cells_per_cm2] = 100 * count / area;
        if (diameters.empty()) return;
        const auto number = [&](double q) {
            return diameters[static_cast<std::size_t>(q * (count - 1))];
        };
        values[Measure::cell_diameter_number_d10] = number(0.1);
        values[Measure::cell_diameter_number_d50] = number(0.5);
        values[Measure::cell_diameter_number_d90] = number(0.9);
        double sum = 0;
        for (const double x : diameters)
            sum += x;
        values[Measure::cell_diameter_number_mean] = sum / count;
        const double d10 = by_area(diameters, 0.1), d50 = by_area(diameters, 0.5),
                     d90 = by_area(diameters, 0.9);
        values[Measure::cell_diameter_area_d10] = d10;
        values[Measure::cell_diameter_area_d50] = d50;
        values[Measure::cell_diameter_area_d90] = d90;
        values[Measure::cell_diameter_area_mean] = moment / pixels;
        values[Measure::coarseness] = d50;
        values[Measure::relative_span] = (d90 - d10) / d50;
        values[Measure::cell_axis_ratio] = ratios / pixels;
        if (long_pixels > 0) {
            values[Measure::cell_direction_strength] = cv::norm(direction) / long_pixels;
            values[Measure::cell_direction] =
                std::atan2(direction.y, direction.x) / 2 * 180 / std::numbers::pi;
        }
        const auto spheres = unfolded_spheres(diameters, area, limit_);
        int place = static_cast<int>(Measure::cell_diameter_3d_volume_d10);
        for (const double q : {0.1, 0.5, 0.9})
            if (const auto d = quantile_by_volume(spheres, q))
                values[static_cast<Measure>(place++)] = *d;
        if (const auto d = quantile_by_number(spheres, 0.5))
            values[Measure::cell_diameter_3d_number_d50] = *d;
    }

    // Of sorted diameters, areas being as their squares.
    static double by_area(const std::vector<double>& sorted, double q) {
        double total = 0, held = 0;
        for (const double x : sorted)
            total += x * x;
        for (const double x : sorted) {
            held += x * x;
            if (held >= q * total) return x;
        }
        return sorted.back();
    }

    const std::vector<Tile>& tiles_;
    const std::vector<TiledCell>& cells_;
    double limit_, pixel_area_;
};

double least_possible(Measure measure) {
    return measure == Measure::cell_axis_ratio ? 1 : 0;
}

double most_possible(Measure measure) {
    switch (measure) {
        case Measure::openness:
        case Measure::openness_fine:
        case Measure::large_cavity_share:
        case Measure::cell_direction_strength:
            return 1;
        default:
            return 1e300;
    }
}

// The range of one measure, from its redrawn deviations.
Range range_of(Measure measure, double value, std::vector<double>& deviations) {
    const double widen = std::numbers::sqrt2;
    const double low = quantile_of(deviations, 0.025), high = quantile_of(deviations, 0.975);
    if (measure == Measure::cell_direction) {
        if (widen * (high - low) >= 180) return {0, 180};
        const auto turned = [](double degrees) {
            return degrees - 180 * std::floor(degrees / 180);
        };
        return {turned(value + widen * std::min(0.0, low)),
                turned(value + widen * std::max(0.0, high))};
    }
    return {std::max(least_possible(measure), value + widen * std::min(0.0, low)),
            std::min(most_possible(measure), value + widen * std::max(0.0, high))};
}

}  // namespace

std::map<Measure, Range> loaf_ranges(const FaceMeasures& face, const CellMap& cells,
                                     const BaseFrame& frame, double limit, unsigned seed) {
    std::map<Measure, Range> ranges;
    const std::vector<Tile>& tiles = face.tiling.tiles;
    if (tiles.size() < least_tiles) return ranges;
    const std::vector<TiledCell> list = tiled_cells(cells, face.tiling, frame);
    const Redrawn redrawn(tiles, list, limit, cells.unit_per_pixel * cells.unit_per_pixel);
    const std::map<Measure, double> own = redrawn.values(std::vector<int>(tiles.size(), 1));
    std::mt19937 random(seed);
    std::map<Measure, std::vector<double>> deviations;
    for (int k = 0; k < rounds; ++k) {
        std::vector<int> times(tiles.size(), 0);
        for (std::size_t t = 0; t < tiles.size(); ++t)
            ++times[random() % tiles.size()];
        for (const auto& [measure, value] : redrawn.values(times)) {
            const auto here = own.find(measure), seen = face.values.find(measure);
            if (here == own.end() || seen == face.values.end()) continue;
            double deviation = value - here->second;
            if (measure == Measure::mean_free_path)
                deviation *= here->second > 0 ? seen->second / here->second : 0;
            if (measure == Measure::cell_direction) deviation -= 180 * std::round(deviation / 180);
            deviations[measure].push_back(deviation);
        }
    }
    for (auto& [measure, list_of] : deviations)
        ranges[measure] = range_of(measure, face.values.at(measure), list_of);
    return ranges;
}

}  // namespace loafmark::analysis
