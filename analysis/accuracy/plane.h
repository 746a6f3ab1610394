// Homographies and polygons in the plane.
#pragma once

#include <vector>

#include "analysis/geometry.h"

namespace loafmark::accuracy {

[[nodiscard]] Homography product(const Homography& a, const Homography& b);
// Up to scale, which is all that a homography needs.
[[nodiscard]] Homography inverse(const Homography& m);
[[nodiscard]] PlanePoint mapped(const Homography& m, double x, double y);

// Where a row crosses a closed polygon, rising; inside is between the first and the second, the
// third and the fourth, and so on.
[[nodiscard]] std::vector<double> crossings(const std::vector<PlanePoint>& polygon, double y);

// Intersection over union of two closed polygons, from rows `step` apart; 0 where both are empty.
[[nodiscard]] double overlap(const std::vector<PlanePoint>& a, const std::vector<PlanePoint>& b,
                             double step);

}  // namespace loafmark::accuracy
