#include "draws.h"

#include <array>

namespace loafmark::phantoms {

namespace {

constexpr std::array flour_looks{
    FlourLook{{0.76f, 0.66f, 0.46f}, {0.42f, 0.28f, 0.13f}, 0.01, 0.85},   // white
    FlourLook{{0.72f, 0.58f, 0.34f}, {0.40f, 0.22f, 0.08f}, 0.03, 0.7},    // yellow
    FlourLook{{0.58f, 0.46f, 0.29f}, {0.26f, 0.13f, 0.05f}, 0.12, 0.75},   // half wholemeal
    FlourLook{{0.42f, 0.30f, 0.18f}, {0.20f, 0.09f, 0.035f}, 0.28, 0.6},   // wholemeal
    FlourLook{{0.33f, 0.235f, 0.14f}, {0.13f, 0.07f, 0.03f}, 0.2, 0.45},   // grey-brown
    FlourLook{{0.19f, 0.115f, 0.06f}, {0.08f, 0.04f, 0.02f}, 0.25, 0.35},  // dark
};

}  // namespace

const FlourLook& flour_look(Dice& dice) {
    return flour_looks[static_cast<std::size_t>(dice.pick(static_cast<int>(flour_looks.size())))];
}

const FlourLook& white_flour() {
    return flour_looks.front();
}

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

CrustShape crust_shape(Dice& dice) {
    CrustShape crust;
    crust.top_mm = dice.between(1.2, 4);
    crust.base_mm = dice.between(1.5, 4.5);
    crust.unevenness = dice.between(0.1, 0.45);
    crust.seed = dice.seed();
    return crust;
}

Surface surface(Dice& dice, Family family) {
    constexpr std::array plain{Surface::wood, Surface::dark_cloth, Surface::slate, Surface::linen};
    constexpr std::array held{Surface::marble, Surface::terracotta, Surface::checked_cloth,
                              Surface::felt};
    return (family == Family::held_back ? held : plain)[static_cast<std::size_t>(dice.pick(4))];
}

Colour surface_tint(Dice& dice) {
    const float tint = dice.f(0.75, 1.2);
    const float red = dice.f(0.95, 1.05);
    return {tint * red, tint, tint * dice.f(0.95, 1.05)};
}

bool is_cloth(Surface surface) {
    return surface == Surface::dark_cloth || surface == Surface::linen ||
           surface == Surface::checked_cloth || surface == Surface::felt;
}

Dice dice_of(std::uint32_t seed, int number, Family family, std::uint32_t what) {
    return Dice(hash32(hash32(seed, static_cast<std::uint32_t>(number)),
                       what + (family == Family::held_back ? 7777U : 0U)));
}

}  // namespace loafmark::phantoms
