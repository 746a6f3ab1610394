// Measures of a section, as docs/measurement.md defines them, by plain counting.
#pragma once

#include <cstdint>
#include <map>
#include <span>
#include <vector>

#include "analysis/measures.h"
#include "phantoms/bread_look.h"
#include "phantoms/section.h"

namespace loafmark::phantoms {

using TrueMeasures = std::map<Measure, double>;

// Height, widths, area and side pinch of a closed outline whose base line is y = 0. A side runs
// from the crown to the base; its dents are those under edges of its hull that are steeper than 45
// degrees; the pinch is the deeper of both sides'.
[[nodiscard]] TrueMeasures outline_measures(const std::vector<PlanePoint>& outline);

// Mean thickness of the crust: of the base where the outline lies on it, of top and sides
// elsewhere. It ends where the lightness of the reflectance in the cut, averaged over 10 mm of
// outline, is half-way from that 0.3 mm inside the outline to the crumb's median. Absent where
// crust and crumb are too alike to be told apart along half the outline or more.
[[nodiscard]] TrueMeasures crust_measures(const std::vector<PlanePoint>& outline,
                                          const PlaneFields& fields, const BreadLook& look);

// Measures of the crumb inside `mask` (section.cells' size, not 0 = crumb), of cells of equivalent
// diameter >= limit_mm; smaller openings count as bread. A cell counts, and enters the diameters,
// where its centroid lies in the mask. Diameters and paths are absent where nothing counts. Pass
// the crumb mask that an analyser found, or section.crumb.
[[nodiscard]] TrueMeasures crumb_measures(const Section& section,
                                          std::span<const std::uint8_t> mask, double limit_mm);

// Volume-weighted d10, d50, d90 of the bubbles of 0.5 mm and up, and their median by number: what
// unfolding a section aims at. Absent where there are none.
[[nodiscard]] TrueMeasures bubble_measures(const std::vector<float>& diameters_mm);

// Flakes of bran and seeds in the face of solid bread, of 0.5 mm equivalent diameter and up: dark
// or pale, never cells. Numbered in a map of the section's size.
[[nodiscard]] LabelMap speck_map(const Section& section, const BreadLook& look);

// Smallest x such that items up to and including x hold the share q of all weight; quantile by
// area of ISO 9276-2. Items are (x, weight), at least one.
struct Weighted {
    double x;
    double weight;
};
[[nodiscard]] double weighted_quantile(std::vector<Weighted> items, double q);

// Quantile of type 7 (Hyndman and Fan 1996): linear between order statistics. At least one value.
[[nodiscard]] double quantile(std::vector<double> values, double q);

}  // namespace loafmark::phantoms
