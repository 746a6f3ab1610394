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

inline constexpr auto figures = std::to_array<Figure>({
    {"height %", FigureKind::relative, Measure::loaf_height, false, 100, 2, 0.4, 1.5},
    {"width %", FigureKind::relative, Measure::loaf_width, false, 100, 2, 0.4, 1.5},
    {"base width %", FigureKind::relative, Measure::base_width, false, 100, 2, 1.0, 3.0},
    {"area %", FigureKind::relative, Measure::cross_section_area, false, 100, 2, 0.6, 2.0},
    {"outline IoU", FigureKind::score, {}, false, 1, 4, 0.990, 0.970},
    {"crust top mm", FigureKind::absolute, Measure::crust_thickness_top, false, 1, 2, 0.3, 0.8},
    {"crust base mm", FigureKind::absolute, Measure::crust_thickness_base, false, 1, 2, 0.3, 0.8},
    {"side pinch mm", FigureKind::absolute, Measure::side_pinch, false, 1, 2, {}, {}},
    {"openness", FigureKind::absolute, Measure::openness, true, 1, 3, {}, {}},
    {"cells per cm2 %", FigureKind::relative, Measure::cells_per_cm2, true, 100, 0, {}, {}},
    {"coarseness %", FigureKind::relative, Measure::coarseness, true, 100, 0, {}, {}},
    {"cell F1", FigureKind::score, {}, true, 1, 2, {}, {}},
    {"size distance", FigureKind::distance, {}, true, 1, 2, {}, {}},
});
inline constexpr std::size_t figure_count = figures.size();

}  // namespace loafmark::accuracy
