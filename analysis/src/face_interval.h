// The 95 % interval of a crumb measure, of this cut face.
#pragma once

#include <vector>

#include "analysis/measures.h"
#include "cell_segmenter.h"
#include "loaf_interval.h"

namespace loafmark::analysis {

struct ErrorSources {
    KnownError known;
    double length_error = 0;  // relative standard error of the scale
    double strength = 0;      // how parallel the cells lie: without it they have no direction
};

// `others`: the value in the same face seen in other ways, as with another level or crust; each
// side reaches as far as the furthest of them. Bounded by what the measure can be; a direction's
// low may lie above its high, modulo 180.
[[nodiscard]] Estimate face_interval(Measure measure, double value,
                                     const std::vector<double>& others,
                                     const ErrorSources& sources);

}  // namespace loafmark::analysis
