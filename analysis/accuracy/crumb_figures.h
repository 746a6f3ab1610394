// The crumb that the analysis found against the true cells in it.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <vector>

#include "analysis/measure.h"
#include "truth.h"

namespace loafmark::accuracy {

struct CrumbComparison {
    // Inside the crumb that was found, of cells at or above its resolved limit.
    std::map<Measure, double> truth;
    double cell_f1 = 0;        // of cells of x >= 1 mm, matched one to one at IoU >= 0.5
    double size_distance = 0;  // 1-Wasserstein, area-weighted, of ln x
    // Share of specks in the crumb more than half covered by counted cells; none: there are none.
    std::optional<double> specks_covered;
};

// The true cells seen in the analysis' own frame, pixel for pixel; of a photo of nothing but crumb
// those parts that it shows. `truth.cells` must be there.
[[nodiscard]] std::vector<std::uint16_t> true_cells_in(const TrueSlice& truth,
                                                       const analysis::SliceMaps& maps);

// `truth.cells` must be there. Nothing where one side has no cells in the crumb.
[[nodiscard]] std::optional<CrumbComparison> compare_crumb(const TrueSlice& truth,
                                                           const SliceReading& found,
                                                           const analysis::SliceMaps& maps);

}  // namespace loafmark::accuracy
