// One photo's reading against its truth.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "analysis/measure.h"
#include "truth.h"

namespace loafmark::accuracy {

// Measured less true; relative ones over true.
struct Comparison {
    std::string photo;
    std::optional<std::string> failure;      // why nothing could be compared
    double height = 0, width = 0, area = 0;  // relative
    double outline_iou = 0;
    double openness = 0;       // absolute
    double cells_per_cm2 = 0;  // relative
    double coarseness = 0;     // relative
    double cell_f1 = 0;        // of cells of x >= 1 mm, matched one to one at IoU >= 0.5
    double size_distance = 0;  // 1-Wasserstein, area-weighted, of ln x
    double true_openness = 0, true_coarseness_mm = 0;
    // Whether the 95 % interval holds the truth: height, width, area, openness, cells per cm2,
    // coarseness.
    std::vector<bool> covered;
};

// Measures the truth's photo with what its user would type and compares. Crumb figures are judged
// inside the crumb that the analysis found, of cells at or above its resolved limit. `measured`
// returns the measurement too, for its pictures.
[[nodiscard]] Comparison compare(const Truth& truth, const analysis::Measurement& measured);

// The options that the truth's user would type, with label maps.
[[nodiscard]] analysis::MeasureOptions typed_options(const Truth& truth);

}  // namespace loafmark::accuracy
