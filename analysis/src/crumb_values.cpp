#include "crumb_values.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include <opencv2/imgproc.hpp>

#include "cell_map.h"
#include "edge_density.h"
#include "face_interval.h"
#include "face_measures.h"
#include "loaf_interval.h"
#include "quantile.h"
#include "size_distribution.h"

namespace loafmark::analysis {
namespace {

// Pixels this much less, or more, probable than the level: set on development phantoms.
constexpr double level_reach = 0.08;
constexpr double share_reach = 0.05;  // of all opening
constexpr double crust_reach = 0.5;   // working units by which the crust's inner edge may be off

FaceMeasures measured(const CellMap& cells, const CrumbInput& input, const cv::Mat& crumb,
                      const FaceMeasures* like, double units_per_mm = 1) {
    BaseFrame frame = input.frame;
    frame.units_per_mm = units_per_mm;
    std::optional<double> density;
    if (input.cut_by_frame) density = edge_corrected_density(cells, crumb, input.visible);
    FaceMeasures face = face_measures({cells, input.openings.probability, input.openings.level,
                                       frame, input.limit, density, like});
    const auto path = face.values.find(Measure::mean_free_path);
    if (!like && path != face.values.end()) path->second *= input.known_error.path_factor;
    return face;
}

// The same face with other levels, another crust and, without a scale, other widths.
std::vector<FaceMeasures> other_views(const CellMap& cells, const FaceMeasures& face,
                                      const CrumbInput& input) {
    const cv::Mat& crumb = input.crumb.mask;
    std::vector<FaceMeasures> others;
    for (const double level :
         {input.openings.level - level_reach, input.openings.level + level_reach})
        others.push_back(
            measured(redrawn_at(cells, input.openings.probability, level, crumb, input.limit),
                     input, crumb, &face));
    cv::Mat inner;
    const int side = 2 * static_cast<int>(std::lround(crust_reach / cells.unit_per_pixel)) + 1;
    cv::erode(crumb, inner, cv::getStructuringElement(cv::MORPH_RECT, {side, side}), {-1, -1}, 1,
              cv::BORDER_CONSTANT, 0);
    others.push_back(measured(within(cells, inner, cells.cavity), input, inner, &face));
    for (const double width : input.other_widths) {
        const CellMap same = within(cells, crumb, cells.cavity / width);
        others.push_back(measured(same, input, crumb, &face, 1 / width));
        if (const auto expected = unevenness_expected(same, others.back().tiling))
            others.back().values[Measure::unevenness_expected] = *expected;
    }
    return others;
}

// Sizes by area if a twentieth of the opening lay in other cells than it seems.
void add_other_shares(const std::vector<double>& diameters, std::vector<FaceMeasures>& others) {
    if (diameters.empty()) return;
    for (const double moved : {-share_reach, share_reach}) {
        std::map<Measure, double> values;
        values[Measure::cell_diameter_area_d10] = quantile_by_area(diameters, 0.1 + moved);
        values[Measure::cell_diameter_area_d50] = quantile_by_area(diameters, 0.5 + moved);
        values[Measure::cell_diameter_area_d90] = quantile_by_area(diameters, 0.9 + moved);
        values[Measure::coarseness] = values[Measure::cell_diameter_area_d50];
        others.push_back({std::move(values), 0, {}, {}});
    }
}

// Crumb area hangs on the outline, the crust and the scale, not on cells.
Estimate crumb_area(double area, double length_error) {
    const double rim = crust_reach * std::sqrt(4 * std::numbers::pi * area);
    const double spread = z95 * std::hypot(2 * length_error * area, 0.5 * rim);
    return {area, area - spread, area + spread, {}, {}};
}

std::vector<Cell> listed(const CellMap& cells) {
    std::vector<Cell> list;
    const double u = cells.unit_per_pixel;
    for (std::size_t label = 1; label < cells.resolved.size(); ++label) {
        const int id = static_cast<int>(label);
        const cv::Point2d& centre = cells.regions[label - 1].centroid;
        list.push_back({id,
                        cells.diameter(id),
                        cells.area(id),
                        {centre.x * u, centre.y * u},
                        cells.counted[label] != 0});
    }
    return list;
}

void add_loaf_ranges(MeasureValues& values, const std::map<Measure, Range>& ranges) {
    for (const auto& [measure, range] : ranges) {
        const auto found = values.find(measure);
        if (found == values.end()) continue;
        found->second.loaf_low = range.low;
        found->second.loaf_high = range.high;
    }
}

}  // namespace

CrumbResult crumb_values(const CrumbInput& input) {
    const double u = input.frame.unit_per_pixel;
    const CellMap cells =
        cell_map(input.openings, input.openings.level, input.crumb.mask, input.limit, u);
    FaceMeasures face = measured(cells, input, input.crumb.mask, nullptr);
    std::map<Measure, double>& values = face.values;
    std::vector<FaceMeasures> others = other_views(cells, face, input);
    add_other_shares(cells.counted_diameters(), others);
    if (const auto expected = unevenness_expected(cells, face.tiling);
        expected && values.contains(Measure::unevenness))
        values[Measure::unevenness_expected] = *expected;
    ErrorSources sources{input.known_error, input.length_error, 0};
    if (const auto strength = values.find(Measure::cell_direction_strength);
        strength != values.end())
        sources.strength = strength->second;

    CrumbResult result;
    for (const auto& [measure, value] : values) {
        std::vector<double> seen;
        for (const FaceMeasures& other : others)
            if (const auto found = other.values.find(measure); found != other.values.end())
                seen.push_back(found->second);
        result.values[measure] = face_interval(measure, value, seen, sources);
    }
    result.values[Measure::crumb_area] = crumb_area(input.crumb.area, input.length_error);
    add_loaf_ranges(result.values, loaf_ranges(face, cells, input.frame, input.limit));
    result.cells = listed(cells);
    result.spheres = std::move(face.spheres);
    result.labels = cells.labels;
    return result;
}

}  // namespace loafmark::analysis
