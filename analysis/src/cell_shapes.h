// How long and how parallel cells are.
#pragma once

#include <optional>

#include "base_frame.h"
#include "cell_map.h"

namespace loafmark::analysis {

struct CellShapes {
    // Area-weighted mean of major over minor axis of the ellipse with the cell's second moments.
    double axis_ratio = 1;
    // Of cells of axis ratio 1.1 and up. Absent where there are none.
    struct Direction {
        double degrees = 0;   // 0 to 180, counter-clockwise from the base line, of major axes
        double strength = 0;  // resultant length: 0 random, 1 parallel
    };
    std::optional<Direction> direction;
};

// Over counted cells; nothing where there are none. Doubled angles, weighted by area (Mardia and
// Jupp 2000, axial data).
[[nodiscard]] std::optional<CellShapes> cell_shapes(const CellMap& cells, const BaseFrame& frame);

// One region's ellipse: major over minor axis, and its major axis' doubled angle as a unit vector
// in the frame's directions.
struct Ellipse {
    double axis_ratio = 1;
    cv::Point2d doubled;
};
[[nodiscard]] Ellipse ellipse_of(const Region& region, const BaseFrame& frame);

}  // namespace loafmark::analysis
