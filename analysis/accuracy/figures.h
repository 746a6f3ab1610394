// What is judged: one row a figure, with the project's goals for it.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>

#include "analysis/measures.h"

namespace loafmark::accuracy {

enum class FigureKind {
    relative,  // (measured - true) / true
    absolute,  // measured - true
    score,     // 1 is best
    distance,  // 0 is best
};

struct Figure {
    std::string_view title;
    FigureKind kind;
    std::optional<Measure> measure;  // whose interval is judged too
    bool of_crumb;                   // needs the true cells
    double shown_as;                 // 100 for percent
    int decimals;
    std::optional<double> goal_median;  // as shown
    std::optional<double> goal_worst;
};

inline constexpr std::string_view specks_title = "specks taken for cells %";

inline constexpr auto figures = std::to_array<Figure>({
    {"height %", FigureKind::relative, Measure::loaf_height, false, 100, 2, 0.4, 1.5},
    {"width %", FigureKind::relative, Measure::loaf_width, false, 100, 2, 0.4, 1.5},
    {"base width %", FigureKind::relative, Measure::base_width, false, 100, 2, 1.0, 3.0},
    {"area %", FigureKind::relative, Measure::cross_section_area, false, 100, 2, 0.6, 2.0},
    {"outline IoU", FigureKind::score, {}, false, 1, 4, 0.990, 0.970},
    {"crust top mm", FigureKind::absolute, Measure::crust_thickness_top, false, 1, 2, 0.3, 0.8},
    {"crust base mm", FigureKind::absolute, Measure::crust_thickness_base, false, 1, 2, 0.3, 0.8},
    {"side pinch mm", FigureKind::absolute, Measure::side_pinch, false, 1, 2, {}, {}},
    {"openness", FigureKind::absolute, Measure::openness, true, 1, 3, 0.012, 0.04},
    {"cells per cm2 %", FigureKind::relative, Measure::cells_per_cm2, true, 100, 1, 6.0, 15.0},
    {"coarseness %", FigureKind::relative, Measure::coarseness, true, 100, 1, 5.0, 12.0},
    {"mean free path %", FigureKind::relative, Measure::mean_free_path, true, 100, 1, 8.0, 20.0},
    {"cell F1", FigureKind::score, {}, true, 1, 3, 0.90, 0.78},
    {"size distance", FigureKind::distance, {}, true, 1, 3, 0.06, 0.15},
    {specks_title, FigureKind::distance, {}, true, 100, 1, 1.0, {}},
    {"3-D d50 %",
     FigureKind::relative,
     Measure::cell_diameter_3d_volume_d50,
     false,
     100,
     1,
     10.0,
     {}},
    {"relative span %", FigureKind::relative, Measure::relative_span, true, 100, 1, {}, {}},
    {"axis ratio", FigureKind::absolute, Measure::cell_axis_ratio, true, 1, 3, {}, {}},
    {"parallel", FigureKind::absolute, Measure::cell_direction_strength, true, 1, 3, {}, {}},
    {"unevenness %", FigureKind::relative, Measure::unevenness, true, 100, 1, {}, {}},
    {"cavity share", FigureKind::absolute, Measure::large_cavity_share, true, 1, 3, {}, {}},
    {"openness, fine", FigureKind::absolute, Measure::openness_fine, true, 1, 3, {}, {}},
    {"band 1", FigureKind::absolute, Measure::openness_profile_1, true, 1, 3, {}, {}},
    {"band 5", FigureKind::absolute, Measure::openness_profile_5, true, 1, 3, {}, {}},
    {"band 9", FigureKind::absolute, Measure::openness_profile_9, true, 1, 3, {}, {}},
    {"dense base mm", FigureKind::absolute, Measure::dense_base, true, 1, 1, {}, {}},
});
inline constexpr std::size_t figure_count = figures.size();

}  // namespace loafmark::accuracy
