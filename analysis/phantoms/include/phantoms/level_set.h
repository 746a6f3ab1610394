// The slice's inner surface as a level set on voxels: positive in air, negative in bread, in mm
// near the surface and clipped away from it. The cut face is the plane z = 0; z grows into the
// slice.
#pragma once

#include <cstdint>

#include "phantoms/vec3.h"

namespace loafmark::phantoms {

// A view of quantised distances on the nodes (x0 + i step, y0 + j step, z0 + k step), x fastest.
struct VoxelGrid {
    const std::int8_t* values = nullptr;
    int nx = 0;
    int ny = 0;
    int nz = 0;
    float x0 = 0;  // mm
    float y0 = 0;
    float z0 = 0;
    float step = 1;     // mm between nodes
    float quantum = 1;  // mm of distance per count
};

// The eight nodes around a position, and where it lies between them.
struct VoxelCorner {
    float v[8];
    float fx, fy, fz;
};

// Positions beyond the grid take its nearest face's values.
LOAFMARK_DEVICE inline VoxelCorner corner_at(const VoxelGrid& g, Vec3 p) {
    const float inverse = 1 / g.step;
    const float x = clamped((p.x - g.x0) * inverse, 0, static_cast<float>(g.nx) - 1.001f);
    const float y = clamped((p.y - g.y0) * inverse, 0, static_cast<float>(g.ny) - 1.001f);
    const float z = clamped((p.z - g.z0) * inverse, 0, static_cast<float>(g.nz) - 1.001f);
    const int i = static_cast<int>(x), j = static_cast<int>(y), k = static_cast<int>(z);
    const long row = g.nx, sheet = static_cast<long>(g.nx) * g.ny;
    const std::int8_t* at = g.values + k * sheet + j * row + i;
    return {{static_cast<float>(at[0]), static_cast<float>(at[1]), static_cast<float>(at[row]),
             static_cast<float>(at[row + 1]), static_cast<float>(at[sheet]),
             static_cast<float>(at[sheet + 1]), static_cast<float>(at[sheet + row]),
             static_cast<float>(at[sheet + row + 1])},
            x - static_cast<float>(i),
            y - static_cast<float>(j),
            z - static_cast<float>(k)};
}

LOAFMARK_DEVICE inline float sample(const VoxelGrid& g, Vec3 p) {
    const VoxelCorner c = corner_at(g, p);
    const float a0 = c.v[0] + c.fx * (c.v[1] - c.v[0]), a1 = c.v[2] + c.fx * (c.v[3] - c.v[2]);
    const float a2 = c.v[4] + c.fx * (c.v[5] - c.v[4]), a3 = c.v[6] + c.fx * (c.v[7] - c.v[6]);
    const float b0 = a0 + c.fy * (a1 - a0), b1 = a2 + c.fy * (a3 - a2);
    return (b0 + c.fz * (b1 - b0)) * g.quantum;
}

// Fine voxels near the cut face, coarse ones below `seam_z`.
struct LevelSet {
    VoxelGrid fine;
    VoxelGrid coarse;
    float seam_z = 0;
};

LOAFMARK_DEVICE inline const VoxelGrid& grid_at(const LevelSet& set, float z) {
    return z < set.seam_z || set.coarse.nz == 0 ? set.fine : set.coarse;
}
LOAFMARK_DEVICE inline float level_at(const LevelSet& set, Vec3 p) {
    return sample(grid_at(set, p.z), p);
}
// Unit normal of the surface near p, from bread into air.
LOAFMARK_DEVICE inline Vec3 normal_at(const LevelSet& set, Vec3 p) {
    const VoxelGrid& g = grid_at(set, p.z);
    const float h = g.step;
    return normalised({sample(g, p + Vec3{h, 0, 0}) - sample(g, p - Vec3{h, 0, 0}),
                       sample(g, p + Vec3{0, h, 0}) - sample(g, p - Vec3{0, h, 0}),
                       sample(g, p + Vec3{0, 0, h}) - sample(g, p - Vec3{0, 0, h})});
}

}  // namespace loafmark::phantoms
