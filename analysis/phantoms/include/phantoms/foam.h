// The population of bubbles, and the level set of bread that it leaves.
#pragma once

#include <cstdint>
#include <functional>
#include <vector>

#include "phantoms/bubble.h"
#include "phantoms/level_set.h"
#include "phantoms/outline.h"

namespace loafmark::phantoms {

// What crumb to make. Diameters are those of spheres of equal volume.
struct FoamRecipe {
    double openness = 0.5;      // wanted area fraction of the cut; what comes out is measured
    double diameter_mm = 2;     // volume-weighted median of the bubbles
    double spread = 0.5;        // standard deviation of ln diameter
    double matrix_share = 0.3;  // share of gas in a finer population between the others
    double matrix_mm = 0.9;     // its volume-weighted median diameter
    double cavern_share = 0;    // share of gas in caverns
    double cavern_mm = 12;      // their diameter, 0.7 to 1.5 times this
    double fines_per_mm3 = 3;   // bubbles of 0.22 to 0.5 mm in the walls, near the cut
    double elongation = 1.35;   // mean ratio of longest to shortest axis
    double direction = 0;       // preferred long axis, radians, 0 along the base
    double alignment = 0.3;     // 0 random, 1 all parallel
    double clinging = 0.3;      // share of bubbles that sit against or in a larger one
    double lobed = 0.6;         // share of the larger bubbles that are clusters run together
    double open_pairs = 0.25;   // share of neighbours without a wall between them
    double torn_pairs = 0.2;    // share of neighbours with a ragged hole in it
    double wall_mm = 0.12;      // least thickness of a wall
    double wall_spread_mm = 0.15;
    double irregularity = 0.5;   // 0 ellipsoids, 1 strongly bent
    double patchiness = 0.2;     // variation of size over the slice
    double roughness_mm = 0.03;  // of the walls
    double rim_mm = 0;           // radius to which the rims of openings in the cut are rounded
    double torn_mm = 0;          // depth of the relief that tearing leaves
    double torn_share = 0;       // share of the face that is torn
    double crust_zone_mm = 9;    // bubbles are smaller and flatter nearer to the crust than this
    std::uint32_t seed = 1;
    bool operator==(const FoamRecipe&) const = default;
};

// A sphere.
[[nodiscard]] Bubble sphere(Vec3 centre, float radius);

struct FoamVolume {
    std::vector<std::int8_t> fine;
    std::vector<std::int8_t> torn_cut;  // the section along a torn face; empty: fine's first sheet
    std::vector<std::int8_t> coarse;
    VoxelGrid fine_grid;  // without `values`; view() sets them
    VoxelGrid coarse_grid;
    float seam_z = 0;
    // Diameters, mm, of spheres of the bubbles' volume, as swollen; walls take nothing off. A
    // bubble that runs together with others is listed by itself, the finest near the cut not at
    // all.
    std::vector<float> bubble_diameters;
    // Lasts as long as this object.
    [[nodiscard]] LevelSet view() const;
};

struct VolumeLayout {
    double step_mm = 0.1;        // near the cut
    double fine_depth_mm = 2.5;  // how deep the fine voxels reach
    double coarse_step_mm = 0.2;
    double thickness_mm = 15;
};

// Bubbles packed into the crumb of a slice, largest first, each where it overlaps least.
[[nodiscard]] std::vector<Bubble> pack_bubbles(const FoamRecipe& recipe, const PlaneFields& fields,
                                               double thickness_mm, double crowding);

struct FittedBubbles {
    std::vector<Bubble> bubbles;
    WallRules rules;
};

// The crumb's openness in the cut for each of a rising series of swellings (mm).
using OpennessInCut =
    std::function<std::vector<double>(const std::vector<Bubble>& bubbles, const WallRules& rules,
                                      const std::vector<float>& swellings)>;

// Packs and swells bubbles until the cut's openness is near the recipe's, or as near as such
// bubbles allow. The openness is asked of the caller, who has a processor or a graphics card to
// tell it.
[[nodiscard]] FittedBubbles fit_bubbles(const FoamRecipe& recipe, const PlaneFields& fields,
                                        double thickness_mm, const OpennessInCut& openness_in_cut);

// The bread that these bubbles leave inside the outline. Same answer for any number of threads.
[[nodiscard]] FoamVolume build_volume(const std::vector<Bubble>& bubbles, const WallRules& rules,
                                      const PlaneFields& fields, const VolumeLayout& layout,
                                      int threads);

// Fits bubbles and builds.
[[nodiscard]] FoamVolume make_foam(const FoamRecipe& recipe, const PlaneFields& fields,
                                   const VolumeLayout& layout, int threads);

}  // namespace loafmark::phantoms
