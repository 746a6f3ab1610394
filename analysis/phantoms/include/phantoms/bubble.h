// A bubble, and the rules by which walls stand between bubbles: plain structs of the core.
#pragma once

#include <cstdint>

#include "phantoms/vec3.h"

namespace loafmark::phantoms {

// An ellipsoid; rows of `unit_from_mm` map offsets in mm onto the unit sphere.
struct Bubble {
    Vec3 centre;
    Vec3 unit_from_mm[3];
    float least_radius = 1;
    float most_radius = 1;
    std::uint32_t group = 0;  // bubbles of one group, but 0, have no walls between them
};

// What the level set is made of besides the bubbles themselves.
struct WallRules {
    float swell_mm = 0;  // bubbles grown by this
    float wall_mm = 0;   // least wall between neighbours; 0 and no spread: they merge
    float wall_spread_mm = 0;
    float open_pairs = 0;
    float torn_pairs = 0;
    float warp = 0;  // bending of space, relative
    float roughness_mm = 0;
    std::uint32_t seed = 1;
    float rim_mm = 0;  // the rims of openings in the cut are rounded by this
    // Where crumb was torn, not cut, the face is a rough relief that reaches this deep.
    float torn_mm = 0;
    float torn_share = 0;  // of the face
};

}  // namespace loafmark::phantoms
