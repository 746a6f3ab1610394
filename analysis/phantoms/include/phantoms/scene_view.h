// Everything that a ray can meet, as plain structs and flat arrays: the rendering core's input.
// All in the target's frame, mm: x right, y down on the print, z away from the reader. A target
// that lies on the table has up = (0, 0, -1); one that stands has up = (0, -1, 0).
#pragma once

#include "phantoms/bread_look.h"
#include "phantoms/level_set.h"
#include "phantoms/light.h"
#include "phantoms/plane_fields.h"
#include "phantoms/table_look.h"

namespace loafmark::phantoms {

// A rod with round ends: a finger, a pencil; a loose crumb where both ends are one.
struct Solid {
    Vec3 from;
    Vec3 to;
    float radius = 0.5f;
    Colour colour;
};

// Solids that follow one another in the list, and a ball that holds them all.
struct Clump {
    Vec3 centre;
    float radius = 0;
    int first = 0;
    int count = 0;
};

// A flat well with a sloping rim, on the table under a slice.
struct Plate {
    bool there = false;
    Vec3 centre;  // on the table
    float well_radius = 70;
    float well_height = 5;  // above the table
    float rim_radius = 100;
    float rim_height = 14;
    Colour colour{0.7f, 0.7f, 0.68f};
};

// Where a slice lies: its frame (x right, y down along the loaf, z into the slice, the cut face
// z = 0), mirrored where `way` is -1, turned about z by the angle of this cosine and sine, and
// moved.
struct Placement {
    float cosine = 1;
    float sine = 0;
    Vec3 origin;
    float way = 1;
};

LOAFMARK_DEVICE inline Vec3 turned_in(const Placement& p, Vec3 v) {
    return {p.way * (p.cosine * v.x + p.sine * v.y), -p.sine * v.x + p.cosine * v.y, v.z};
}
LOAFMARK_DEVICE inline Vec3 turned_out(const Placement& p, Vec3 v) {
    const float x = p.way * v.x;
    return {p.cosine * x - p.sine * v.y, p.sine * x + p.cosine * v.y, v.z};
}

struct SliceView {
    LevelSet level;
    PlaneFields fields;
    Vec3 low;   // corners of the box that holds the bread, slice frame
    Vec3 high;  // high.z is the thickness
    // Deeper than this the bread is solid, and the voxels are not asked.
    float solid_from = 1e9f;
    BreadLook bread;
    Placement place;
};

struct TablePlane {
    Vec3 point;
    Vec3 up{0, 0, -1};
    Vec3 right{1, 0, 0};  // directions of the surface's own x and y
    Vec3 down{0, 1, 0};
};

inline constexpr int most_slices = 4;

struct SceneView {
    SliceView slices[most_slices];
    int slice_count = 0;
    TableLook look;
    TablePlane table;
    bool card_stands = false;  // the target is a card in the plane z = 0, not a sheet on the table
    Plate plate;
    Light light;
    const Solid* solids = nullptr;
    const Clump* clumps = nullptr;
    int clump_count = 0;
    int max_bounces = 10;
    bool roulette = true;        // end dim paths early, without bias
    float white_everywhere = 0;  // above 0: every surface has this reflectance and no bumps (tests)
};

}  // namespace loafmark::phantoms
