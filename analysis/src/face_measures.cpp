#include "face_measures.h"

#include <array>

#include "bands.h"
#include "cell_shapes.h"
#include "size_distribution.h"
#include "wide_openings.h"

namespace loafmark::analysis {
namespace {

Measure after(Measure first, std::size_t places) {
    return static_cast<Measure>(static_cast<int>(first) + static_cast<int>(places));
}

void add_areas(FaceMeasures& face) {
    double crumb = 0, open = 0, cavity = 0;
    for (const Tile& tile : face.tiling.tiles)
        crumb += tile.crumb, open += tile.open, cavity += tile.cavity;
    if (crumb <= 0) return;
    face.values[Measure::openness] = open / crumb;
    face.values[Measure::large_cavity_share] = cavity / crumb;
    if (cavity < crumb) face.values[Measure::openness_fine] = (open - cavity) / (crumb - cavity);
}

void add_sizes(FaceMeasures& face, const std::vector<double>& diameters, double limit) {
    if (diameters.empty()) return;
    const SizeSummary number = summary_by_number(diameters), area = summary_by_area(diameters);
    const auto put = [&](Measure first, const SizeSummary& s) {
        std::size_t place = 0;
        for (const double value : {s.d10, s.d50, s.d90, s.mean})
            face.values[after(first, place++)] = value;
    };
    put(Measure::cell_diameter_number_d10, number);
    put(Measure::cell_diameter_area_d10, area);
    face.values[Measure::coarseness] = area.d50;
    face.values[Measure::relative_span] = (area.d90 - area.d10) / area.d50;
    face.spheres = unfolded_spheres(diameters, face.crumb_area, limit);
    std::size_t place = 0;
    for (const double q : {0.1, 0.5, 0.9})
        if (const auto d = quantile_by_volume(face.spheres, q))
            face.values[after(Measure::cell_diameter_3d_volume_d10, place++)] = *d;
    if (const auto d = quantile_by_number(face.spheres, 0.5))
        face.values[Measure::cell_diameter_3d_number_d50] = *d;
}

void add_shapes(FaceMeasures& face, const FaceInput& input) {
    const auto shapes = cell_shapes(input.cells, input.frame);
    if (!shapes) return;
    face.values[Measure::cell_axis_ratio] = shapes->axis_ratio;
    if (!shapes->direction) return;
    face.values[Measure::cell_direction] = shapes->direction->degrees;
    face.values[Measure::cell_direction_strength] = shapes->direction->strength;
}

void add_places(FaceMeasures& face, const FaceInput& input) {
    const OpennessProfile profile = openness_profile(input.cells, input.frame);
    for (std::size_t i = 0; i < profile.size(); ++i)
        if (profile[i]) face.values[after(Measure::openness_profile_1, i)] = *profile[i];
    if (const auto layer = dense_base(input.cells, input.frame))
        face.values[Measure::dense_base] = *layer;
    const WideOpenings wide = wide_openings(input.cells, input.frame);
    const auto put = [&](Measure first, const std::optional<WideOpening>& opening) {
        if (!opening) return;
        face.values[first] = opening->width;
        face.values[after(first, 1)] = opening->height;
        face.values[after(first, 2)] = opening->share_of_width;
    };
    put(Measure::crust_separation_width, wide.under_crust);
    put(Measure::tunnel_width, wide.elsewhere);
}

// Length of solid crumb over the edges of its openings: proportional to the mean free path.
std::optional<double> solid_per_edge(const std::vector<Tile>& tiles) {
    double solid = 0, edges = 0;
    for (const Tile& tile : tiles)
        solid += tile.crumb - tile.open, edges += tile.edges;
    if (edges <= 0) return std::nullopt;
    return solid / edges;
}

std::optional<double> path_of(const FaceInput& input, const std::vector<Tile>& tiles) {
    if (!input.like)
        return count_lines(input.cells, input.probability, input.level).mean_free_path();
    const auto known = input.like->values.find(Measure::mean_free_path);
    const auto here = solid_per_edge(tiles), there = solid_per_edge(input.like->tiling.tiles);
    if (known == input.like->values.end() || !here || !there) return std::nullopt;
    return known->second * *here / *there;
}

}  // namespace

FaceMeasures face_measures(const FaceInput& input) {
    FaceMeasures face;
    const CellMap& cells = input.cells;
    const std::vector<double> diameters = cells.counted_diameters();
    const double coarseness = diameters.empty() ? 0 : summary_by_area(diameters).d50;
    face.tiling = tiles_of(cells, input.frame, tile_side(coarseness, input.frame.units_per_mm));
    double crumb = 0;
    for (const Tile& tile : face.tiling.tiles)
        crumb += tile.crumb;
    face.crumb_area = std::max(crumb * cells.unit_per_pixel * cells.unit_per_pixel, 1e-9);
    const auto count = static_cast<double>(diameters.size());
    face.values[Measure::openness] = 0;
    face.values[Measure::cell_count] = count;
    face.values[Measure::cells_per_cm2] = 100 * input.density.value_or(count / face.crumb_area);
    add_areas(face);
    add_sizes(face, diameters, input.limit);
    add_shapes(face, input);
    add_places(face, input);
    if (const auto path = path_of(input, face.tiling.tiles))
        face.values[Measure::mean_free_path] = *path;
    if (const auto uneven = unevenness(face.tiling.tiles))
        face.values[Measure::unevenness] = *uneven;
    return face;
}

}  // namespace loafmark::analysis
