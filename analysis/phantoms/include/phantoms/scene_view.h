// Everything that a ray can meet, as plain structs and flat arrays: the rendering core's input.
// All in the slice frame: x right, y down along the loaf, z into the slice, mm; the cut face is
// z = 0, its underside z = thickness, the table z = table_z.
#pragma once

#include "phantoms/bread_look.h"
#include "phantoms/level_set.h"
#include "phantoms/light.h"
#include "phantoms/plane_fields.h"
#include "phantoms/table_look.h"

namespace loafmark::phantoms {

// A loose crumb on the table.
struct Morsel {
    Vec3 centre;
    float radius = 0.5f;
    Colour colour;
};

struct SliceView {
    LevelSet level;
    PlaneFields fields;
    Vec3 low;   // corners of the box that holds the bread
    Vec3 high;  // high.z is the thickness
};

struct SceneView {
    SliceView slice;
    BreadLook bread;
    TableLook table;
    Light light;
    float table_z = 15;
    // Slice frame to target frame, for the prints: x_t = cos x - sin y + tx, y_t = sin x + cos y +
    // ty.
    float target_cos = 1, target_sin = 0, target_tx = 0, target_ty = 0;
    const Morsel* morsels = nullptr;
    int morsel_count = 0;
    int max_bounces = 10;
    bool roulette = true;        // end dim paths early, without bias
    float white_everywhere = 0;  // above 0: every surface has this reflectance and no bumps (tests)
};

}  // namespace loafmark::phantoms
