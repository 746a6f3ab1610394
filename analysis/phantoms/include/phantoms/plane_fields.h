// What depends on the place in the slice's plane alone: distance to the outline, depth below the
// crust. Slice frame: x right, y down, mm; the base line is y = 0 and the loaf lies above it (y <
// 0).
#pragma once

#include "phantoms/vec3.h"

namespace loafmark::phantoms {

struct PlaneSample {
    float outline;      // signed distance to the outline, mm, negative inside
    float crumb_depth;  // how far inside the crumb, mm; negative in the crust
    float crust_mm;     // thickness of the crust here
};

// A view of node values at (x0 + i step, y0 + j step), x fastest.
struct PlaneFields {
    const PlaneSample* nodes = nullptr;
    int nx = 0;
    int ny = 0;
    float x0 = 0;
    float y0 = 0;
    float step = 1;
};

LOAFMARK_DEVICE inline PlaneSample mix(PlaneSample a, PlaneSample b, float t) {
    return {a.outline + t * (b.outline - a.outline),
            a.crumb_depth + t * (b.crumb_depth - a.crumb_depth),
            a.crust_mm + t * (b.crust_mm - a.crust_mm)};
}

LOAFMARK_DEVICE inline PlaneSample plane_at(const PlaneFields& f, float px, float py) {
    const float x = clamped((px - f.x0) / f.step, 0, static_cast<float>(f.nx) - 1.001f);
    const float y = clamped((py - f.y0) / f.step, 0, static_cast<float>(f.ny) - 1.001f);
    const int i = static_cast<int>(x), j = static_cast<int>(y);
    const PlaneSample* at = f.nodes + static_cast<long>(j) * f.nx + i;
    const float fx = x - static_cast<float>(i);
    return mix(mix(at[0], at[1], fx), mix(at[f.nx], at[f.nx + 1], fx), y - static_cast<float>(j));
}

}  // namespace loafmark::phantoms
