#include "phantoms/recipes.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "phantoms/random.h"

namespace loafmark::phantoms {

namespace {

constexpr double pi = std::numbers::pi;

// Draws for recipes, all from one stream.
class Dice {
  public:
    explicit Dice(std::uint32_t key) : stream_(key) {}
    double between(double low, double high) { return low + (high - low) * stream_.next(); }
    // Even in the logarithm.
    double ratio(double low, double high) {
        return low * std::pow(high / low, static_cast<double>(stream_.next()));
    }
    bool chance(double p) { return stream_.next() < p; }
    int pick(int n) {
        return std::min(n - 1, static_cast<int>(stream_.next() * static_cast<float>(n)));
    }
    std::uint32_t seed() { return static_cast<std::uint32_t>(stream_.next() * 16777216.0f) + 1; }
    float f(double low, double high) { return static_cast<float>(between(low, high)); }

  private:
    RandomStream stream_;
};

struct FlourLook {
    Colour crumb;
    Colour bran;
    double bran_share;
    double most_open;  // openness that such a flour reaches
};

constexpr std::array flour_looks{
    FlourLook{{0.76f, 0.66f, 0.46f}, {0.42f, 0.28f, 0.13f}, 0.01, 0.85},   // white
    FlourLook{{0.72f, 0.58f, 0.34f}, {0.40f, 0.22f, 0.08f}, 0.03, 0.7},    // yellow
    FlourLook{{0.58f, 0.46f, 0.29f}, {0.26f, 0.13f, 0.05f}, 0.12, 0.75},   // half wholemeal
    FlourLook{{0.42f, 0.30f, 0.18f}, {0.20f, 0.09f, 0.035f}, 0.28, 0.6},   // wholemeal
    FlourLook{{0.33f, 0.235f, 0.14f}, {0.13f, 0.07f, 0.03f}, 0.2, 0.45},   // grey-brown
    FlourLook{{0.19f, 0.115f, 0.06f}, {0.08f, 0.04f, 0.02f}, 0.25, 0.35},  // dark
};

BreadLook bread_look(Dice& dice, const FlourLook& flour) {
    BreadLook look;
    const float tone = dice.f(0.9, 1.08);
    look.crumb = flour.crumb * tone;
    // The skin of a cell is a little darker and warmer than the cut, never greener.
    const float skin = dice.f(0.9, 1.02);
    const float warmth = dice.f(0.97, 1.0);
    look.film = look.crumb * Colour{skin, skin * warmth, skin * warmth * dice.f(0.95, 1.0)};
    const float bake = dice.f(0, 1);
    look.crust_top = mix(Colour{0.42f, 0.22f, 0.08f}, Colour{0.11f, 0.045f, 0.02f}, bake);
    look.crust_base = mix(Colour{0.40f, 0.23f, 0.11f}, Colour{0.15f, 0.07f, 0.03f}, dice.f(0, 1));
    look.bran = flour.bran;
    look.bran_share = static_cast<float>(flour.bran_share * dice.between(0.6, 1.5));
    look.bran_mm = dice.f(0.9, 1.8);
    look.mottle = dice.f(0.05, 0.12);
    look.bump = dice.f(0.35, 0.7);
    look.face_bump = dice.f(0.2, 0.45);
    look.bump_mm = dice.f(0.25, 0.5);
    look.knife = dice.f(0.0, 0.07);
    look.knife_direction = dice.f(-0.6, 0.6);
    look.knife_pitch_mm = dice.f(0.6, 1.6);
    look.smear = dice.chance(0.5) ? dice.f(0.05, 0.35) : 0;
    look.flour_dust = dice.chance(0.4) ? dice.f(0.2, 0.7) : 0;
    return look;
}

FoamRecipe foam_recipe(Dice& dice, Family family, double most_open) {
    FoamRecipe foam;
    foam.seed = dice.seed();
    // Dense crumb has small cells; open crumb may have any, but fine walls take their share.
    const double kind = dice.between(0, 1);
    const double dense = kind < 0.25  ? dice.between(0.03, 0.25)
                         : kind < 0.8 ? dice.between(0.25, 0.7)
                                      : dice.between(0.65, 0.85);
    foam.diameter_mm = dice.ratio(dense > 0.65 ? 3.5 : 0.75, 2 + 11 * dense);
    const double coarse = std::log(foam.diameter_mm / 0.75) / std::log(11 / 0.75);
    foam.openness = std::min({dense, most_open, 0.5 + 0.4 * coarse});
    foam.spread = dice.between(0.3, 0.6);
    foam.matrix_share = dice.between(0.1, 0.45);
    foam.matrix_mm = dice.between(0.6, 1.6);
    if (family == Family::held_back) {
        // Two populations instead of one wide one.
        foam.spread = dice.between(0.22, 0.4);
        foam.cavern_share = dice.between(0.1, 0.45);
        foam.cavern_mm = std::min(14.0, foam.diameter_mm * dice.between(2.2, 4));
    } else if (dice.chance(0.3)) {
        foam.cavern_share = dice.between(0.05, 0.35);
        foam.cavern_mm = dice.between(7, 15);
    }
    foam.fines_per_mm3 = dice.ratio(2.5, 9);
    foam.lobed = dice.between(0.3, 0.9);
    foam.clinging = dice.between(0.1, 0.6);
    foam.elongation = dice.between(1.1, family == Family::held_back ? 2.4 : 1.9);
    foam.direction = dice.between(-0.6, pi - 0.6);
    foam.alignment = dice.between(0, 0.6);
    // Where cells touch everywhere, a few missing walls join them all.
    const double walled = 1 - 0.75 * foam.openness;
    foam.open_pairs = walled * dice.between(0.03, 0.25);
    foam.torn_pairs = walled * dice.between(0.05, 0.3);
    foam.wall_mm = dice.between(0.1, 0.2);
    foam.wall_spread_mm = dice.between(0.05, 0.35);
    foam.irregularity = dice.between(0.4, 1.1);
    foam.patchiness = dice.between(0.05, 0.28);
    foam.roughness_mm = dice.between(0.015, 0.05);
    foam.crust_zone_mm = dice.between(4, 14);
    return foam;
}

LoafShape loaf_shape(Dice& dice, Family family) {
    LoafShape loaf;
    loaf.seed = dice.seed();
    const bool held = family == Family::held_back;
    if (dice.chance(0.5)) {
        loaf.form = LoafForm::tin;
        loaf.width_mm = held ? dice.between(72, 95) : dice.between(88, 122);
        loaf.height_mm =
            loaf.width_mm * (held ? dice.between(0.75, 1.35) : dice.between(0.65, 1.15));
        loaf.base_share = held ? dice.between(0.93, 1.0) : dice.between(0.78, 0.93);
        // Held back: tins with a lid, nearly square.
        loaf.side_share = held ? dice.between(0.86, 0.94) : dice.between(0.55, 0.82);
        loaf.dome_power = held ? dice.between(3, 5) : dice.between(1.9, 2.7);
        loaf.waist_mm = dice.chance(0.4) ? dice.between(0.5, 4) : 0;
    } else {
        loaf.form = LoafForm::free_form;
        loaf.width_mm = held ? dice.between(80, 112) : dice.between(105, 155);
        loaf.height_mm =
            loaf.width_mm * (held ? dice.between(0.62, 0.85) : dice.between(0.4, 0.66));
        loaf.base_share = held ? dice.between(0.55, 0.75) : dice.between(0.72, 0.95);
        loaf.dome_power = held ? dice.between(1.7, 2.0) : dice.between(2.0, 2.5);
        loaf.ear_mm = dice.chance(0.5) ? dice.between(2, 7) : 0;
    }
    loaf.lean = dice.between(-0.5, 0.5);
    loaf.roughness_mm = dice.between(0.25, 0.9);
    return loaf;
}

LightRecipe light_recipe(Dice& dice, Family family) {
    LightRecipe light;
    const bool hard = dice.chance(family == Family::held_back ? 0.5 : 0.3);
    light.lamp_azimuth = dice.between(0, 2 * pi);
    light.lamp_elevation = dice.between(0.3, 1.25);
    light.lamp_distance_mm =
        family == Family::held_back ? dice.between(450, 700) : dice.between(700, 1800);
    light.lamp_radius_mm =
        light.lamp_distance_mm * (hard ? dice.between(0.02, 0.06) : dice.between(0.15, 0.4));
    light.lamp_strength = dice.between(0.3, hard ? 2.0 : 3.0);
    light.glow = dice.between(0, 0.5);
    const bool warm = dice.chance(family == Family::held_back ? 0.7 : 0.3);
    light.lamp_tint = warm ? Colour{1.0f, 0.82f, 0.60f} : Colour{1.0f, 0.98f, 0.95f};
    light.zenith = warm ? Colour{0.8f, 0.74f, 0.66f} : Colour{0.92f, 0.96f, 1.0f};
    const float floor = dice.f(0.3, 0.9);
    light.horizon = light.zenith * floor;
    return light;
}

Development development(Dice& dice) {
    Development how;
    how.seed = dice.seed();
    how.translucency = dice.between(0.2, 0.5);
    how.translucency_mm = dice.between(0.2, 0.5);
    how.defocus_px = dice.ratio(0.4, 1.6);
    how.vignetting = dice.between(0, 0.3);
    how.exposure_stops = dice.between(-0.4, 0.7);
    how.warmth = dice.between(-0.15, 0.15);
    how.shot_noise = dice.ratio(0.004, 0.03);
    how.read_noise = dice.ratio(0.001, 0.006);
    how.contrast = dice.between(0.05, 0.5);
    how.saturation = dice.between(1.0, 1.2);
    how.sharpening = dice.between(0, 0.9);
    return how;
}

void lay_table(Dice& dice, Family family, PhantomRecipe& recipe) {
    constexpr std::array plain{Surface::wood, Surface::dark_cloth, Surface::slate, Surface::linen};
    constexpr std::array held{Surface::marble, Surface::terracotta, Surface::checked_cloth,
                              Surface::felt};
    recipe.surface =
        (family == Family::held_back ? held : plain)[static_cast<std::size_t>(dice.pick(4))];
    const float tint = dice.f(0.75, 1.2);
    recipe.surface_tint = {tint * dice.f(0.95, 1.05), tint, tint * dice.f(0.95, 1.05)};
    recipe.grain_angle = dice.between(-0.5, 0.5) + (dice.chance(0.3) ? pi / 2 : 0);
    const int kind = dice.pick(4);
    recipe.target = kind == 0   ? TargetKind::letter_mat
                    : kind == 3 ? TargetKind::strip
                                : TargetKind::a4_mat;
    const int field = dice.pick(5);
    recipe.field = field < 3 ? MatField::blue : field == 3 ? MatField::white : MatField::frame;
    const bool cloth = recipe.surface == Surface::dark_cloth || recipe.surface == Surface::linen ||
                       recipe.surface == Surface::checked_cloth || recipe.surface == Surface::felt;
    recipe.gap_mm = cloth && recipe.target == TargetKind::strip ? 1.1 : 0.15;
    recipe.morsels = dice.pick(18);
}

// The slice in the middle of the mat, or above the strip; the camera over both.
void place(Dice& dice, PhantomRecipe& recipe) {
    const bool strip = recipe.target == TargetKind::strip;
    const double h = recipe.loaf.height_mm;
    recipe.pose.angle =
        dice.between(-0.2, 0.2) + (strip ? 0 : dice.pick(2) * pi / 2 * dice.pick(2));
    const double sheet_middle = recipe.target == TargetKind::letter_mat ? 115.5 : 126.5;
    const PlanePoint middle =
        strip ? PlanePoint{dice.between(55, 85), -38 - h / 2 - dice.between(0, 15)}
              : PlanePoint{83 + dice.between(-8, 8), sheet_middle + dice.between(-12, 12)};
    // The slice's own middle lies half its height above its origin.
    recipe.pose.origin_mm = {middle.x - std::sin(recipe.pose.angle) * h / 2,
                             middle.y + std::cos(recipe.pose.angle) * h / 2};
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
    const FlourLook& flour =
        flour_looks[static_cast<std::size_t>(dice.pick(static_cast<int>(flour_looks.size())))];
    recipe.bread = bread_look(dice, flour);
    recipe.foam = foam_recipe(dice, family, flour.most_open);
    recipe.light = light_recipe(dice, family);
    recipe.development = development(dice);
    recipe.thickness_mm = dice.between(9, 20);
    recipe.jpeg_quality = 78 + dice.pick(18);
    return recipe;
}

Dice dice_of(std::uint32_t seed, int number, Family family, std::uint32_t what) {
    return Dice(hash32(hash32(seed, static_cast<std::uint32_t>(number)),
                       what + (family == Family::held_back ? 7777U : 0U)));
}

}  // namespace

PhantomRecipe random_loaf(std::uint32_t seed, int number, Family family) {
    Dice dice = dice_of(seed, number, family, 1);
    PhantomRecipe recipe = common(dice, seed, number, family);
    recipe.loaf = loaf_shape(dice, family);
    recipe.crust.top_mm = dice.between(1.2, 4);
    recipe.crust.base_mm = dice.between(1.5, 4.5);
    recipe.crust.unevenness = dice.between(0.1, 0.45);
    recipe.crust.seed = dice.seed();
    lay_table(dice, family, recipe);
    place(dice, recipe);
    return recipe;
}

PhantomRecipe random_patch(std::uint32_t seed, int number, Family family) {
    Dice dice = dice_of(seed, number, family, 2);
    const PhantomRecipe drawn = common(dice, seed, number, family);
    PhantomRecipe recipe = patch_recipe(drawn.foam, 40, dice.between(8, 20));
    recipe.seed = drawn.seed;
    recipe.bread = drawn.bread;
    recipe.light = drawn.light;
    recipe.development = drawn.development;
    recipe.development.vignetting = 0;
    recipe.jpeg_quality = drawn.jpeg_quality;
    return recipe;
}

}  // namespace loafmark::phantoms
