// How far a loaf's sides are drawn in.
#pragma once

#include "base_line.h"
#include "geometry2d.h"

namespace loafmark::analysis {

// The greatest inward dent of either side from the side's own convex hull, in the outline's unit; 0
// for sides that bulge. A side runs from the base up to where the outline, going up, last lies
// within 15 % of the half-width of that side's outermost point, so that a dome or an ear is no
// side.
[[nodiscard]] double side_pinch(const Polyline& outline, const BaseLine& base);

}  // namespace loafmark::analysis
