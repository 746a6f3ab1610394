// The outline of a loaf in the plane of the cut, and the fields that follow from it.
// Slice frame: x right, y down, mm; the base line is y = 0, the loaf lies above it (y < 0).
#pragma once

#include <cstdint>
#include <vector>

#include "analysis/geometry.h"
#include "phantoms/plane_fields.h"

namespace loafmark::phantoms {

enum class LoafForm { tin, free_form };

struct LoafShape {
    LoafForm form = LoafForm::tin;
    double width_mm = 110;  // greatest, of the smooth shape before irregularities
    double height_mm = 105;
    double base_share = 0.9;    // base width / width
    double side_share = 0.7;    // tin: height of the straight sides / height
    double dome_power = 2.2;    // 2 an ellipse; larger flatter with squarer shoulders
    double lean = 0;            // -1..1, the crown's shift to a side
    double waist_mm = 0;        // inward dent of a tin loaf's sides
    double ear_mm = 0;          // height of the lip along a score
    double roughness_mm = 0.5;  // standard irregularity of the crust line
    std::uint32_t seed = 1;
    bool operator==(const LoafShape&) const = default;
};

struct CrustShape {
    double top_mm = 2.5;  // mean thickness at top and sides
    double base_mm = 3;
    double unevenness = 0.25;  // relative variation along the outline
    std::uint32_t seed = 1;
    bool operator==(const CrustShape&) const = default;
};

// How thick the crust is at a place, if that place lies under the top or a side, or over the base;
// mm.
struct CrustDepth {
    double top;
    double base;
};
[[nodiscard]] CrustDepth crust_depth(const CrustShape& crust, PlanePoint p);

// A closed polygon, counted once round, its base on y = 0.
[[nodiscard]] std::vector<PlanePoint> loaf_outline(const LoafShape& shape);

// Node values that own their memory; `view` lasts as long as this object.
struct PlaneFieldGrid {
    std::vector<PlaneSample> nodes;
    int nx = 0;
    int ny = 0;
    double x0 = 0;
    double y0 = 0;
    double step = 0.25;
    [[nodiscard]] PlaneFields view() const;
};

// Fields of a loaf with that outline, over its bounding box and a margin of 3 mm.
[[nodiscard]] PlaneFieldGrid loaf_fields(const std::vector<PlanePoint>& outline,
                                         const CrustShape& crust, int threads);

// Fields of a piece of crumb without outline or crust that fills the rectangle.
[[nodiscard]] PlaneFieldGrid patch_fields(double left, double top, double width, double height);

}  // namespace loafmark::phantoms
