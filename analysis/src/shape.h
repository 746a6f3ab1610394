// The loaf's shape from its outline: height, width, base width, area.
#pragma once

#include <vector>

#include "analysis/measures.h"
#include "base_line.h"
#include "geometry2d.h"

namespace loafmark::analysis {

struct Shape {
    double height = 0, width = 0, base_width = 0, area = 0, pinch = 0,
           perimeter = 0;    // in the outline's units
    cv::Point2d crown;       // the outline point furthest from the base line
    cv::Point2d crown_foot;  // its foot on the base line
};

// Definitions of docs/measurement.md. `outline` in a frame whose y runs towards the base.
[[nodiscard]] Shape shape_of(const Polyline& outline, const BaseLine& base);

// How far the shape moves when the outline is placed by other weights: root mean square difference
// of each number of `alternatives` from `shape`. Zero without alternatives.
[[nodiscard]] Shape spread_of(const Shape& shape, const std::vector<Shape>& alternatives);

// Of two independent spreads: root of the sum of squares, number by number.
[[nodiscard]] Shape joined(const Shape& spread, const Shape& other);

// The values with their intervals. `spread_mm` is of spread_of() or joined(); `length_error`:
// relative standard error of the scale; `edge_error_mm`: standard error of the outline's place, in
// mm. Lengths in mm.
[[nodiscard]] MeasureValues shape_values(const Shape& shape_mm, const Shape& spread_mm,
                                         double length_error, double edge_error_mm);

// Widens the intervals of `values` until they hold those of `others` too.
void widen(MeasureValues& values, const MeasureValues& others);

}  // namespace loafmark::analysis
