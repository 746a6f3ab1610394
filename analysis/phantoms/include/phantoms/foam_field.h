// The foam as a field: how far a point lies inside bread, from the two bubbles nearest to it. Part
// of the rendering core: the processor fills voxels brick by brick with it, a graphics card node by
// node.
#pragma once

#include "phantoms/bubble.h"
#include "phantoms/plane_fields.h"
#include "phantoms/random.h"

namespace loafmark::phantoms {

inline constexpr std::uint32_t no_bubble = 0xffffffffU;

// A view of everything that the field depends on.
struct FoamField {
    const Bubble* bubbles = nullptr;
    WallRules rules;
    PlaneFields fields;
};

// A view of which bubbles can matter where: for each cube of space the bubbles that reach into it,
// ascending; x fastest.
struct BubbleCubes {
    static constexpr float side = 2;  // mm
    const std::uint32_t* starts = nullptr;
    const std::uint32_t* members = nullptr;
    Vec3 low;
    int nx = 1, ny = 1, nz = 1;
};

// Signed distances to the nearest and the second nearest bubble, mm, roughly: exact on the surface.
struct TwoNearest {
    float nearest;
    float second;
    std::uint32_t nearest_id = no_bubble;
    std::uint32_t second_id = no_bubble;
};

// Mm outside a bubble up to which its distance matters; farther, it is only known to be larger.
LOAFMARK_DEVICE inline float reach_beyond(const WallRules& rules) {
    return std::fmax(0.4f, rules.wall_mm + rules.wall_spread_mm + 0.05f);
}

// The farthest, in mm, that bent space moves a point up or down.
LOAFMARK_DEVICE inline float deepest_bend(float warp) {
    return (0.09f + 0.26f + 0.1f * (0.75f + 1.6f)) * warp;
}

// How far a point is moved before bubbles are asked for, so that nothing stays an ellipsoid. Wide
// bends stay in the plane: bubbles are placed near the cut alone, and bending that pulled the cut
// far above them would leave bare patches. `deepest_bend` bounds the rest.
LOAFMARK_DEVICE inline Vec3 bend(Vec3 p, const WallRules& rules) {
    const float w = rules.warp;
    Vec3 wide = vector_noise(p * (1 / 5.0f), rules.seed + 12) * (0.75f * w) +
                vector_noise(p * (1 / 13.0f), rules.seed + 13) * (1.6f * w);
    wide.z *= 0.1f;
    return vector_noise(p * (1 / 0.9f), rules.seed + 10) * (0.09f * w) +
           vector_noise(p * (1 / 2.1f), rules.seed + 11) * (0.26f * w) + wide;
}

LOAFMARK_DEVICE inline float bubble_distance(const Bubble& b, Vec3 p) {
    const Vec3 to = p - b.centre;
    const Vec3 u{dot(b.unit_from_mm[0], to), dot(b.unit_from_mm[1], to),
                 dot(b.unit_from_mm[2], to)};
    return (length(u) - 1) * b.least_radius;
}

// Takes bubble `id` at distance d into account; ask in ascending order of ids.
LOAFMARK_DEVICE inline void consider(TwoNearest& two, float d, std::uint32_t id) {
    if (d < two.nearest) {
        two.second = two.nearest;
        two.second_id = two.nearest_id;
        two.nearest = d;
        two.nearest_id = id;
    } else if (d < two.second) {
        two.second = d;
        two.second_id = id;
    }
}

LOAFMARK_DEVICE inline TwoNearest two_nearest(const FoamField& foam, const BubbleCubes& cubes,
                                              Vec3 p) {
    const float beyond = reach_beyond(foam.rules);
    TwoNearest two{beyond, beyond};
    const Vec3 q = (p - cubes.low) * (1 / BubbleCubes::side);
    const int i = floor_int(q.x), j = floor_int(q.y), k = floor_int(q.z);
    if (i < 0 || j < 0 || k < 0 || i >= cubes.nx || j >= cubes.ny || k >= cubes.nz) return two;
    const long cube = (static_cast<long>(k) * cubes.ny + j) * cubes.nx + i;
    for (std::uint32_t m = cubes.starts[cube]; m < cubes.starts[cube + 1]; ++m) {
        const std::uint32_t id = cubes.members[m];
        consider(two, bubble_distance(foam.bubbles[id], p), id);
    }
    return two;
}

// Wall of a pair of neighbours at a place, mm; below any thickness where it is torn away.
LOAFMARK_DEVICE inline float wall_between(const FoamField& foam, std::uint32_t a, std::uint32_t b,
                                          Vec3 p) {
    constexpr float gone = -50, tiny = 0.3f;
    const WallRules& rules = foam.rules;
    const Bubble &one = foam.bubbles[a], &other = foam.bubbles[b];
    if (one.group != 0 && one.group == other.group) return gone;
    const std::uint32_t low = a < b ? a : b, high = a < b ? b : a;
    const std::uint32_t h = hash32(hash32(low, rules.seed), high);
    const float fate = unit_float(h);
    // The walls of the finest cells burst most easily: they pit the cells beside them.
    const float less = std::fmin(one.least_radius, other.least_radius);
    const bool pits = less < tiny && std::fmax(one.least_radius, other.least_radius) > 4 * less;
    if (fate < (pits ? std::fmin(0.6f, 4 * rules.open_pairs) : rules.open_pairs)) return gone;
    if (fate < rules.open_pairs + rules.torn_pairs) {
        const float rag =
            value_noise(p * (1 / 1.4f), h) + 0.5f * value_noise(p * (1 / 0.4f), h + 1);
        if (rag > -0.1f) return gone;
    }
    const float thick = 0.5f + 0.5f * value_noise(p * (1 / 2.5f), rules.seed + 21);
    return rules.wall_mm + rules.wall_spread_mm * thick * thick;
}

// Positive in air, mm. `bent`: the place after bending.
LOAFMARK_DEVICE inline float foam_level(const FoamField& foam, const TwoNearest& two, Vec3 bent,
                                        float swell_mm) {
    const WallRules& rules = foam.rules;
    float bread = two.nearest - swell_mm;  // positive in bread
    const float gap = two.second - two.nearest;
    const float most_wall = rules.wall_mm + rules.wall_spread_mm;
    if (most_wall > 0 && two.nearest_id != no_bubble) {
        // Beyond the reach of any wall the exact one does not matter: a safe distance will do.
        const bool near = two.second_id != no_bubble && gap < most_wall + 0.1f;
        const float wall = near ? wall_between(foam, two.nearest_id, two.second_id, bent) : 0;
        bread = std::fmax(bread, (wall - gap) / 2);
    }
    if (rules.roughness_mm > 0 && std::fabs(bread) < 0.15f)
        bread += rules.roughness_mm * (value_noise(bent * (1 / 0.55f), rules.seed + 31) +
                                       0.6f * value_noise(bent * (1 / 0.22f), rules.seed + 32));
    return -bread;
}

// How far the cut widens an opening at this depth below it: rims are rounded to a quarter circle,
// but a wall between two cells keeps two thirds of its thickness.
LOAFMARK_DEVICE inline float rim_widening(const WallRules& rules, const TwoNearest& two, float z) {
    if (rules.rim_mm <= 0 || z >= rules.rim_mm) return 0;
    const float below = 1 - std::fmax(0.0f, z) / rules.rim_mm;
    return std::fmin(rules.rim_mm, 0.25f * (two.second - two.nearest)) *
           (1 - std::sqrt(1 - below * below));
}

// Mm that the face lies below the plane of the cut, where crumb was torn.
LOAFMARK_DEVICE inline float torn_depth(const WallRules& rules, float x, float y) {
    if (rules.torn_mm <= 0) return 0;
    const float patch = 0.5f + 0.5f * value_noise({x / 14, y / 14, 0.5f}, rules.seed + 61);
    const float torn = smooth_step(0.9f - rules.torn_share, 1.1f - rules.torn_share, patch);
    if (torn <= 0) return 0;
    const float rough = 0.55f * value_noise({x / 2.2f, y / 2.2f, 1.5f}, rules.seed + 62) +
                        0.45f * value_noise({x / 0.9f, y / 0.9f, 2.5f}, rules.seed + 63) +
                        0.25f * value_noise({x / 0.4f, y / 0.4f, 3.5f}, rules.seed + 64);
    return rules.torn_mm * torn * clamped(0.5f + 0.5f * rough, 0, 1);
}

// The level set of the slice at `place`: positive in air, negative in bread. `face`: how deep the
// torn face lies there; what is above it is air.
LOAFMARK_DEVICE inline float level_below(const FoamField& foam, const TwoNearest& two, Vec3 place,
                                         Vec3 bent, float swell_mm, float face) {
    const PlaneSample here = plane_at(foam.fields, place.x, place.y);
    // The crust holds no cells.
    float open =
        foam_level(foam, two, bent, swell_mm) + rim_widening(foam.rules, two, place.z - face);
    if (face > 0) open = std::fmax(open, face - place.z);
    const float air = std::fmin(open, here.crumb_depth);
    // Below the cut the flank is rough; in the cut the outline is exact.
    float flank = here.outline;
    if (std::fabs(flank) < 0.5f)
        flank += std::fmin(1.0f, std::fabs(place.z)) * 0.25f *
                 value_noise(place * (1 / 1.2f), foam.rules.seed + 41);
    return std::fmax(air, flank);
}

LOAFMARK_DEVICE inline float bread_level(const FoamField& foam, const TwoNearest& two, Vec3 place,
                                         Vec3 bent, float swell_mm) {
    return level_below(foam, two, place, bent, swell_mm, torn_depth(foam.rules, place.x, place.y));
}

// The level on the face itself, torn or not, at (x, y): its sign tells where the section is open.
LOAFMARK_DEVICE inline float face_level(const FoamField& foam, const BubbleCubes& cubes, float x,
                                        float y) {
    const Vec3 place{x, y, torn_depth(foam.rules, x, y)};
    const Vec3 bent = place + bend(place, foam.rules);
    const TwoNearest two = two_nearest(foam, cubes, bent);
    return level_below(foam, two, place, bent, foam.rules.swell_mm, place.z);
}

// The level in counts of a voxel grid with this quantum.
LOAFMARK_DEVICE inline std::int8_t quantised(float mm, float quantum) {
    return static_cast<std::int8_t>(std::nearbyint(clamped(mm / quantum, -127, 127)));
}

}  // namespace loafmark::phantoms
