// What ordinary pipelines make of a slice whose outline and scale they are given.
#pragma once

#include "compare.h"

namespace loafmark::accuracy {

// `found` and `maps`: of the analysis, for the crumb that all are judged in and the resolved limit.
// `truth.cells` must be there.
void judge_yardsticks(const TrueSlice& truth, const SliceReading& found,
                      const analysis::SliceMaps& maps, SliceComparison& result);

// A crumb's figures against the truth; those that the truth does not know are not asked.
void judge_crumb(const TrueSlice& truth, const SliceReading& found, const analysis::SliceMaps& maps,
                 std::array<Outcome, figure_count>& outcomes);

}  // namespace loafmark::accuracy
