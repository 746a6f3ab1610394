#include <algorithm>
#include <cmath>

#include "brick.h"
#include "parallel.h"

namespace loafmark::phantoms {

VoxelGrid grid_over(const PlaneFields& fields, float step, float z_from, float z_to) {
    VoxelGrid grid;
    grid.step = step;
    grid.quantum = step / 13;  // counts reach about ten steps from the surface
    grid.x0 = fields.x0;
    grid.y0 = fields.y0;
    grid.z0 = z_from;
    grid.nx = static_cast<int>(fields.step * static_cast<float>(fields.nx - 1) / step) + 1;
    grid.ny = static_cast<int>(fields.step * static_cast<float>(fields.ny - 1) / step) + 1;
    grid.nz = static_cast<int>(std::ceil((z_to - z_from) / step - 1e-3f)) + 1;
    return grid;
}

namespace {

std::vector<std::int8_t> fill(const VoxelGrid& grid, const FoamSource& source, int threads) {
    std::vector<std::int8_t> values(static_cast<std::size_t>(grid.nx) * grid.ny * grid.nz);
    const auto bricks = [](int n) { return (n + Brick::side - 1) / Brick::side; };
    const int bx = bricks(grid.nx), by = bricks(grid.ny), bz = bricks(grid.nz);
    parallel_for(bx * by * bz, threads, [&](int b) {
        const int i0 = b % bx * Brick::side, j0 = b / bx % by * Brick::side,
                  k0 = b / bx / by * Brick::side;
        const int nx = std::min(Brick::side, grid.nx - i0),
                  ny = std::min(Brick::side, grid.ny - j0),
                  nz = std::min(Brick::side, grid.nz - k0);
        const Vec3 origin{grid.x0 + static_cast<float>(i0) * grid.step,
                          grid.y0 + static_cast<float>(j0) * grid.step,
                          grid.z0 + static_cast<float>(k0) * grid.step};
        const Brick brick(source, origin, grid.step, nx, ny, nz);
        for (int k = 0; k < nz; ++k)
            for (int j = 0; j < ny; ++j)
                for (int i = 0; i < nx; ++i)
                    values[(static_cast<std::size_t>(k0 + k) * grid.ny + (j0 + j)) * grid.nx + i0 +
                           i] =
                        quantised(brick.level(i, j, k, source.rules.swell_mm), grid.quantum);
    });
    return values;
}

std::vector<std::int8_t> torn_cut(const VoxelGrid& grid, const FoamSource& source) {
    std::vector<std::int8_t> cut;
    for (int j = 0; j < grid.ny; ++j)
        for (int i = 0; i < grid.nx; ++i)
            cut.push_back(quantised(face_level(source.field(), source.index->view(),
                                               grid.x0 + static_cast<float>(i) * grid.step,
                                               grid.y0 + static_cast<float>(j) * grid.step),
                                    grid.quantum));
    return cut;
}

// Openness of the crumb in the cut for each of a rising series of swellings.
std::vector<double> openness_in_cut(const FoamSource& source, const std::vector<float>& swellings,
                                    int threads) {
    constexpr float step = 0.2f;
    const VoxelGrid grid = grid_over(source.fields, step, 0, 0);
    const auto bricks = [](int n) { return (n + Brick::side - 1) / Brick::side; };
    const int bx = bricks(grid.nx), by = bricks(grid.ny);
    std::vector<std::vector<long>> open(static_cast<std::size_t>(bx) * by);
    std::vector<long> crumb(open.size());
    parallel_for(bx * by, threads, [&](int b) {
        const int i0 = b % bx * Brick::side, j0 = b / bx * Brick::side;
        const int nx = std::min(Brick::side, grid.nx - i0),
                  ny = std::min(Brick::side, grid.ny - j0);
        const Vec3 origin{grid.x0 + static_cast<float>(i0) * step,
                          grid.y0 + static_cast<float>(j0) * step, 0};
        const Brick brick(source, origin, step, nx, ny, 1);
        auto& counts = open[static_cast<std::size_t>(b)];
        counts.assign(swellings.size(), 0);
        for (int j = 0; j < ny; ++j)
            for (int i = 0; i < nx; ++i) {
                const PlaneSample here =
                    plane_at(source.fields, origin.x + static_cast<float>(i) * step,
                             origin.y + static_cast<float>(j) * step);
                if (here.crumb_depth <= 0 || here.outline >= 0) continue;
                ++crumb[static_cast<std::size_t>(b)];
                for (std::size_t s = 0; s < swellings.size(); ++s)
                    counts[s] += brick.level(i, j, 0, swellings[s]) > 0 ? 1 : 0;
            }
    });
    std::vector<double> shares(swellings.size(), 0);
    long total = 0;
    for (const long c : crumb)
        total += c;
    for (const auto& counts : open)
        for (std::size_t s = 0; s < counts.size(); ++s)
            shares[s] += static_cast<double>(counts[s]) / static_cast<double>(std::max(1L, total));
    return shares;
}

}  // namespace

LevelSet FoamVolume::view() const {
    LevelSet set{fine_grid, coarse_grid, seam_z};
    set.fine.values = fine.data();
    set.coarse.values = coarse.data();
    return set;
}

FoamVolume build_volume(const std::vector<Bubble>& bubbles, const WallRules& rules,
                        const PlaneFields& fields, const VolumeLayout& layout, int threads) {
    const BubbleIndex index(bubbles, reach_beyond(rules) + std::max(0.0f, rules.swell_mm));
    const FoamSource source{&bubbles, &index, rules, fields};
    FoamVolume volume;
    const float thickness = static_cast<float>(layout.thickness_mm);
    const float seam = std::min(static_cast<float>(layout.fine_depth_mm), thickness);
    const float step = static_cast<float>(layout.step_mm);
    volume.seam_z = seam;
    volume.fine_grid = grid_over(fields, step, 0, seam + step);
    volume.fine = fill(volume.fine_grid, source, threads);
    if (rules.torn_mm > 0) volume.torn_cut = torn_cut(volume.fine_grid, source);
    if (seam < thickness) {
        volume.coarse_grid =
            grid_over(fields, static_cast<float>(layout.coarse_step_mm), seam, thickness);
        volume.coarse = fill(volume.coarse_grid, source, threads);
    }
    return volume;
}

namespace {

// Smaller ones are packed near the cut alone, for the walls' grain, and are no part of the crumb's
// population.
constexpr float finest_mm = 0.5f;

// Of a sphere of the ellipsoid's volume.
float sphere_diameter(const Bubble& bubble) {
    const Vec3* rows = bubble.unit_from_mm;
    const float det = dot(rows[0], {rows[1].y * rows[2].z - rows[1].z * rows[2].y,
                                    rows[1].z * rows[2].x - rows[1].x * rows[2].z,
                                    rows[1].x * rows[2].y - rows[1].y * rows[2].x});
    return 2 / std::cbrt(std::abs(det));
}

}  // namespace

FoamVolume make_foam(const FoamRecipe& recipe, const PlaneFields& fields,
                     const VolumeLayout& layout, int threads) {
    const FittedBubbles fitted = fit_bubbles(
        recipe, fields, layout.thickness_mm,
        [&](const std::vector<Bubble>& bubbles, const WallRules& rules,
            const std::vector<float>& swellings) {
            const BubbleIndex index(bubbles, reach_beyond(rules) + swellings.back());
            return openness_in_cut({&bubbles, &index, rules, fields}, swellings, threads);
        });
    FoamVolume volume = build_volume(fitted.bubbles, fitted.rules, fields, layout, threads);
    for (const Bubble& bubble : fitted.bubbles)
        if (const float diameter = sphere_diameter(bubble); diameter > finest_mm)
            volume.bubble_diameters.push_back(diameter + 2 * fitted.rules.swell_mm);
    return volume;
}

}  // namespace loafmark::phantoms
