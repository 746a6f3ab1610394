// Every measure of the crumb that one map of cells gives: values without intervals.
#pragma once

#include <map>
#include <vector>

#include "analysis/measures.h"
#include "base_frame.h"
#include "cell_map.h"
#include "test_lines.h"
#include "tiles.h"
#include "unfold_spheres.h"

namespace loafmark::analysis {

struct FaceInput {
    const CellMap& cells;
    const cv::Mat& probability;  // CV_32F
    double level = 0.5;          // that the cells were drawn at
    const BaseFrame& frame;
    double limit = 0.5;  // working units
    // Cells per square unit where the photo's edge cuts the crumb; none: by plain counting.
    std::optional<double> density;
    // The same face's path and tiles, seen otherwise: its path is then told by how many pixel edges
    // part solid from cell, without laying lines again.
    const struct FaceMeasures* like = nullptr;
};

struct FaceMeasures {
    std::map<Measure, double> values;  // lengths in working units under the keys of millimetres
    double crumb_area = 0;             // square units
    Tiling tiling;
    std::vector<SphereClass> spheres;
};

// Definitions: docs/measurement.md. unevenness_expected is left out: it needs the shuffles.
[[nodiscard]] FaceMeasures face_measures(const FaceInput& input);

}  // namespace loafmark::analysis
