// Test lines laid over the crumb: how much bread stands between openings.
#pragma once

#include <optional>

#include "cell_map.h"

namespace loafmark::analysis {

struct LineCount {
    double solid = 0;    // length in solid crumb, working units
    double changes = 0;  // from solid to cell or back
    // Bread between openings: (1 - A_A) / N_L of stereology (Underwood 1970). Nothing where no line
    // meets a cell.
    [[nodiscard]] std::optional<double> mean_free_path() const;
};

// Lines every 22.5 degrees, 0.5 mm apart, clipped to the crumb, in steps of half a pixel.
// `probability` (CV_32F) tells where between two pixels a cell ends: at `level`. A line that passes
// from one cell straight into another crosses a wall without width: two changes.
[[nodiscard]] LineCount count_lines(const CellMap& cells, const cv::Mat& probability, double level);

}  // namespace loafmark::analysis
