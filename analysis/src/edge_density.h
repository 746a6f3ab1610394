// Cells per area where the photo's edge cuts the crumb.
#pragma once

#include <opencv2/core.hpp>

#include "cell_map.h"

namespace loafmark::analysis {

// Counted cells per square unit, each wholly visible one standing for the places at which it would
// have been wholly visible; cells that touch what is not visible are left out (Miles 1974,
// Lantuejoul 1980). `crumb`, `visible`: CV_8U, nonzero inside.
[[nodiscard]] double edge_corrected_density(const CellMap& cells, const cv::Mat& crumb,
                                            const cv::Mat& visible);

}  // namespace loafmark::analysis
