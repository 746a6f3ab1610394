// What a training view shows: drawn from one seed, wider in every respect than what a kitchen
// offers.
#pragma once

#include <cstdint>

#include "phantoms/develop.h"
#include "phantoms/foam.h"
#include "phantoms/scene_view.h"
#include "phantoms/section.h"

namespace loafmark::training {

// The analysis' own frame: pixels of 0.1 mm, cropped to a square.
inline constexpr int frame_pixels = 384;
inline constexpr double frame_mm_per_pixel = 0.1;

// A piece of the loaf's rim that crosses the view; without one the view is all crumb.
struct RimRecipe {
    bool present = false;
    float direction = 0;    // radians, of the outward normal
    float distance_mm = 0;  // of the rim from the view's middle, outwards
    float curvature = 0;    // 1/mm
    float roughness_mm = 0.4f;
    float crust_mm = 2.5f;
    std::uint32_t seed = 1;
};

struct ViewRecipe {
    std::uint32_t seed = 1;
    phantoms::FoamRecipe foam;
    RimRecipe rim;
    phantoms::BreadLook bread;
    phantoms::TableLook table;
    phantoms::Light light;
    phantoms::Development development;
    double thickness_mm = 15;
    double gap_mm = 0.15;
    double pixels_per_mm = 10;       // of the photo, at the cut
    phantoms::Vec3 eye{0, 0, -350};  // of the camera, mm, the view's middle at 0
};

[[nodiscard]] ViewRecipe random_view(std::uint32_t seed);

// Distance to the rim and depth below the crust over the view and a margin round it.
[[nodiscard]] phantoms::PlaneFieldGrid view_fields(const RimRecipe& rim, double half_mm);

}  // namespace loafmark::training
