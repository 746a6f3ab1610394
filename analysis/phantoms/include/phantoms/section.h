// The truth: the section of the rendered geometry itself in the plane of the cut.
#pragma once

#include <cstdint>
#include <vector>

#include "analysis/geometry.h"
#include "analysis/picture.h"
#include "phantoms/foam.h"

namespace loafmark::phantoms {

struct SectionCell {
    int id = 0;           // its number in the map, from 1
    double area = 0;      // mm2
    double diameter = 0;  // sqrt(4 area / pi), mm
    PlanePoint centre;    // centroid, slice frame, mm
};

// Cells are the 4-connected openings of the section inside the outline. Openings of less than
// `least_mapped_mm` equivalent diameter are left out of the map.
struct Section {
    LabelMap cells;                   // 0 bread or outside, else the cell's id
    std::vector<std::uint8_t> loaf;   // 1 inside the outline; openings that reach it count
    std::vector<std::uint8_t> crumb;  // 1 inside the outline and not crust
    // The level set at the pixels in counts, positive in openings: tells where between two pixels a
    // cell ends. Empty: half-way.
    std::vector<std::int8_t> level;
    double mm_per_pixel = 0.1;
    PlanePoint first_pixel;         // centre of the top-left pixel, slice frame, mm
    std::vector<SectionCell> list;  // by id
};

inline constexpr double least_mapped_mm = 0.2;

// Cuts the finely voxelised part of the slice at z = 0, one pixel a node.
[[nodiscard]] Section cut_section(const FoamVolume& volume, const PlaneFields& fields);

// Labels 4-connected regions of `open` (row by row, not 0 = open), dropping those under
// `least_diameter_mm`. Throws std::length_error above 65535 cells.
[[nodiscard]] Section label_openings(const std::vector<std::uint8_t>& open, int width, int height,
                                     double mm_per_pixel, PlanePoint first_pixel,
                                     double least_diameter_mm);

}  // namespace loafmark::phantoms
