// From the sizes of sections to the sizes of the bubbles that were cut: Saltykov's unfolding.
#pragma once

#include <optional>
#include <vector>

namespace loafmark::analysis {

// Classes of ratio 10^0.1 in diameter.
struct SphereClass {
    double low = 0, high = 0;   // diameters; the spheres are taken to have the upper one
    double per_volume = 0;      // spheres per cubic unit
    bool was_negative = false;  // came out below 0 and was set to 0
};

// Spheres whose random plane sections have these diameters, in classes from `limit` up to the
// largest (Saltykov 1958; Underwood 1970): from the largest class down, the sections that larger
// spheres leave in a class are taken off it. A class that comes out negative is set to 0 before the
// smaller ones are worked out, and marked. Assumes spheres, apart from each other, cut at random:
// what is run together in the face counts as one sphere. Sections below the limit are left out.
// `area`: of the face, square units, above 0.
[[nodiscard]] std::vector<SphereClass> unfolded_spheres(const std::vector<double>& diameters,
                                                        double area, double limit);

// The factor of the sections per area in the class k larger, in spheres per volume times their
// diameter, for k = 0 to count - 1 (without setting anything to 0).
[[nodiscard]] std::vector<double> saltykov_factors(std::size_t count);

// Diameter up to which the spheres hold the share q of all their volume, or of their number; evenly
// spread over a class's logarithm, and raised by the quarter of a class by which that comes out low
// (simulated log-normal spheres). Nothing without spheres.
[[nodiscard]] std::optional<double> quantile_by_volume(const std::vector<SphereClass>& classes,
                                                       double q);
[[nodiscard]] std::optional<double> quantile_by_number(const std::vector<SphereClass>& classes,
                                                       double q);

}  // namespace loafmark::analysis
