// How far another cut through the same loaf may differ: block bootstrap over tiles.
#pragma once

#include <map>

#include "analysis/measures.h"
#include "face_measures.h"

namespace loafmark::analysis {

struct Range {
    double low = 0, high = 0;
};

// Tiles are drawn with replacement (block bootstrap: Kuensch 1989; in the plane Hall 1985), 200
// times, and what of the measures can be had from tiles is worked out anew each time. The 95 %
// range of the redrawn values, about the face's own, is widened by the square root of two, since
// the other cut varies as much as this one. Measures that hang on a place in the loaf (profile,
// dense base, wide openings) have none. Nothing with fewer than four tiles.
[[nodiscard]] std::map<Measure, Range> loaf_ranges(const FaceMeasures& face, const CellMap& cells,
                                                   const BaseFrame& frame, double limit,
                                                   unsigned seed = 1);

}  // namespace loafmark::analysis
