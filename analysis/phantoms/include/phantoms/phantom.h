// Start here: a recipe in, a photo and its truth out.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "analysis/picture.h"
#include "phantoms/camera.h"
#include "phantoms/develop.h"
#include "phantoms/foam.h"
#include "phantoms/outline.h"
#include "phantoms/scene_view.h"
#include "phantoms/section.h"
#include "phantoms/truth.h"

namespace loafmark::phantoms {

// Light as a person would describe it, in the target's frame.
struct LightRecipe {
    Colour zenith{0.9f, 0.95f, 1.0f};
    Colour horizon{0.6f, 0.6f, 0.6f};
    double lamp_azimuth = 0.8;    // radians from x towards y, where the lamp stands
    double lamp_elevation = 0.8;  // radians above the table
    double lamp_distance_mm = 900;
    double lamp_radius_mm = 180;  // large: soft
    double lamp_strength = 1.5;   // its light on a surface facing it, over that of the sky
    Colour lamp_tint{1.0f, 0.97f, 0.92f};
    double glow = 0.2;  // a bright wall on the lamp's side
};

struct SliceRecipe {
    LoafShape loaf;
    CrustShape crust;
    FoamRecipe foam;
    BreadLook bread;
    double thickness_mm = 15;  // standing: of the loaf behind the cut
    double gap_mm = 0.15;      // between slice and table
    // Standing: how far the cut stands before the card's plane, set by the recipe. Lying: follows
    // from thickness, gap and plate.
    SlicePose pose;
    // What a ruler gave for the height of the cut above the table; none: nothing is typed.
    std::optional<double> ruled_mm;
};

// Lying on the table, seen from above; or a loaf cut in half, standing on the table behind its cut,
// the card upright beside it in the plane of the cut, seen from the front.
enum class Stance { lying, standing };

struct PhantomRecipe {
    std::string name;
    std::string look;  // in words, for whoever looks through a set
    std::uint32_t seed = 1;
    // A square of crumb that fills the frame, instead of a loaf; the camera stands square above it.
    std::optional<double> patch_mm;
    std::vector<SliceRecipe> slices = std::vector<SliceRecipe>(1);
    double voxel_mm = 0.1;
    // Below this depth bread is solid; none: cells all the way.
    std::optional<double> foam_depth_mm;
    // Whether the crumb is fine and deep enough for its cells to be judged.
    bool crumb_is_judged = true;
    // Scene
    Stance stance = Stance::lying;
    std::optional<TargetKind> target = TargetKind::a4_mat;
    MatField field = MatField::white;
    Surface surface = Surface::wood;
    Colour surface_tint{1, 1, 1};
    double grain_angle = 0;
    double card_above_table_mm = 20;  // standing: of the first marker's centre
    int morsels = 8;
    Plate plate;                // lying only
    std::vector<Solid> things;  // hands and such, target frame
    double backdrop = 0;        // standing: strength of what stands behind, out of focus
    Camera camera;
    LightRecipe light;
    // Photo
    SampleCount samples;
    Development development;
    int jpeg_quality = 90;
    bool focal_length_in_exif = true;
    std::string taken = "2026-11-01T10:00:00";
};

struct PhantomSlice {
    Section section;
    std::vector<PlanePoint> outline;  // slice frame, mm; empty for a patch
    Homography photo_from_slice{};
    double pixels_per_mm = 0;  // of the cut face, at its middle
    TrueMeasures crust;        // empty for a patch
    TrueMeasures bubbles;
    LabelMap specks;  // of the section's size
};

struct Phantom {
    PhantomRecipe recipe;
    Picture photo;
    std::vector<PhantomSlice> slices;  // in the recipe's order
    std::optional<Homography> photo_from_paper;
};

// Throws std::invalid_argument for a recipe that cannot be made (naming the field), and
// std::length_error for more cells than a 16-bit map holds.
[[nodiscard]] Phantom make_phantom(const PhantomRecipe& recipe, int threads);

// The colour that an automatic white balance settles on: most of the way to the light's own.
[[nodiscard]] Colour seen_white(const LightRecipe& recipe);

// Where the cut lies over a table that the slice lies on.
[[nodiscard]] double height_of_cut(const PhantomRecipe& recipe, const SliceRecipe& slice);

// A recipe for a square patch of crumb photographed square on at the given scale.
[[nodiscard]] PhantomRecipe patch_recipe(const FoamRecipe& foam, double side_mm,
                                         double pixels_per_mm);

}  // namespace loafmark::phantoms
