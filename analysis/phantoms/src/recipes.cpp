#include "phantoms/recipes.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "draws.h"

namespace loafmark::phantoms {

namespace {

void lay_table(Dice& dice, Family family, PhantomRecipe& recipe) {
    recipe.surface = surface(dice, family);
    recipe.surface_tint = surface_tint(dice);
    recipe.grain_angle = dice.between(-0.5, 0.5) + (dice.chance(0.3) ? pi / 2 : 0);
    const int kind = dice.pick(4);
    recipe.target = kind == 0   ? TargetKind::letter_mat
                    : kind == 3 ? TargetKind::strip
                                : TargetKind::a4_mat;
    const int field = dice.pick(5);
    recipe.field = field < 3 ? MatField::blue : field == 3 ? MatField::white : MatField::frame;
    const bool cloth = is_cloth(recipe.surface);
    recipe.slices[0].gap_mm = cloth && recipe.target == TargetKind::strip ? 1.1 : 0.15;
    recipe.morsels = dice.pick(18);
}

// The slice in the middle of the mat, or above the strip; the camera over both.
void place(Dice& dice, PhantomRecipe& recipe) {
    const bool strip = recipe.target == TargetKind::strip;
    SliceRecipe& slice = recipe.slices[0];
    const double h = slice.loaf.height_mm;
    slice.pose.angle = dice.between(-0.2, 0.2) + (strip ? 0 : dice.pick(2) * pi / 2 * dice.pick(2));
    const double sheet_middle = recipe.target == TargetKind::letter_mat ? 115.5 : 126.5;
    const PlanePoint middle =
        strip ? PlanePoint{dice.between(55, 85), -38 - h / 2 - dice.between(0, 15)}
              : PlanePoint{83 + dice.between(-8, 8), sheet_middle + dice.between(-12, 12)};
    // The slice's own middle lies half its height above its origin.
    slice.pose.origin_mm = {middle.x - std::sin(slice.pose.angle) * h / 2,
                            middle.y + std::cos(slice.pose.angle) * h / 2};
    const PlanePoint gaze =
        strip ? PlanePoint{70, middle.y * 0.62 + 4} : PlanePoint{83, sheet_middle};
    const double tilt = dice.between(0, 20) * pi / 180;
    // The small target is often taken with the phone's second lens.
    const double focal =
        strip && h < 115 && dice.chance(0.6) ? dice.between(44, 50) : dice.between(24, 29);
    constexpr std::array sizes{3264, 3648, 4032};
    const int longer = sizes[static_cast<std::size_t>(dice.pick(3))];
    const double roll = dice.between(-0.12, 0.12);
    // A sheet or slice with strip must fit the frame: choose the distance by what it must span.
    const double span = strip ? std::max(200.0, (h + 100) * 4 / 3) * 1.08
                              : (recipe.target == TargetKind::letter_mat ? 295 : 312);
    const double distance =
        std::clamp(span * focal / 43.27 * 1.25 * (1 + 0.35 * std::sin(tilt)), 280.0, 450.0);
    recipe.camera = look_at(gaze, 0, distance, tilt, dice.between(0, 2 * pi), roll);
    recipe.camera.focal_35mm = std::round(focal);
    recipe.camera.width = strip ? longer : longer * 3 / 4;
    recipe.camera.height = strip ? longer * 3 / 4 : longer;
}

PhantomRecipe common(Dice& dice, std::uint32_t seed, int number, Family family) {
    PhantomRecipe recipe;
    recipe.seed = hash32(seed, static_cast<std::uint32_t>(number));
    const FlourLook& flour = flour_look(dice);
    recipe.slices[0].bread = bread_look(dice, flour);
    recipe.slices[0].foam = foam_recipe(dice, family, flour.most_open);
    recipe.light = light_recipe(dice, family);
    recipe.development = development(dice);
    recipe.slices[0].thickness_mm = dice.between(9, 20);
    recipe.jpeg_quality = 78 + dice.pick(18);
    return recipe;
}

}  // namespace

PhantomRecipe random_loaf(std::uint32_t seed, int number, Family family) {
    Dice dice = dice_of(seed, number, family, 1);
    PhantomRecipe recipe = common(dice, seed, number, family);
    SliceRecipe& slice = recipe.slices[0];
    slice.loaf = loaf_shape(dice, family);
    slice.crust = crust_shape(dice);
    slice.ruled_mm = slice.thickness_mm;
    lay_table(dice, family, recipe);
    place(dice, recipe);
    return recipe;
}

PhantomRecipe random_patch(std::uint32_t seed, int number, Family family) {
    Dice dice = dice_of(seed, number, family, 2);
    const PhantomRecipe drawn = common(dice, seed, number, family);
    PhantomRecipe recipe = patch_recipe(drawn.slices[0].foam, 40, dice.between(8, 20));
    recipe.seed = drawn.seed;
    recipe.slices[0].bread = drawn.slices[0].bread;
    recipe.light = drawn.light;
    recipe.development = drawn.development;
    recipe.development.vignetting = 0;
    recipe.jpeg_quality = drawn.jpeg_quality;
    return recipe;
}

PhantomRecipe sphere_patch(std::uint32_t seed, int number, Family family) {
    PhantomRecipe recipe = random_patch(seed, number, family);
    Dice dice = dice_of(seed, number, family, 3);
    FoamRecipe& foam = recipe.slices[0].foam;
    foam.openness = dice.between(0.08, 0.3);
    foam.diameter_mm = dice.between(1, 4);
    foam.spread = dice.between(0.2, 0.45);
    foam.matrix_share = foam.cavern_share = 0;
    foam.elongation = 1;
    foam.clinging = foam.lobed = foam.open_pairs = foam.torn_pairs = 0;
    foam.irregularity = foam.patchiness = foam.roughness_mm = 0;
    foam.crust_zone_mm = foam.fines_per_mm3 = 0;
    return recipe;
}

}  // namespace loafmark::phantoms
