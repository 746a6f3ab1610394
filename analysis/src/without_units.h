// Takes the millimetres out of a reading that has no scale.
#pragma once

#include "analysis/reading.h"

namespace loafmark::analysis {

// Without a scale nothing may be printed in mm: cell sizes become fractions of the loaf's `height`,
// which is in the units that `slice` was measured in, and every other length, area and count per
// area is left out. A slice cut by the photo's edge has no height, and keeps no size.
void without_units(SliceReading& slice, double height);

}  // namespace loafmark::analysis
