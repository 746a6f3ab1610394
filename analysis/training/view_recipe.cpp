#include "view_recipe.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "phantoms/dice.h"

namespace loafmark::training {

namespace {

using namespace phantoms;

double openness(Dice& dice) {
    const double kind = dice.between(0, 1);
    if (kind < 0.15) return dice.between(0.03, 0.12);
    if (kind < 0.40) return dice.between(0.10, 0.35);
    if (kind < 0.75) return dice.between(0.30, 0.60);
    return dice.between(0.55, 0.85);
}

// So that half of the bubbles are larger than 0.2 mm: finer ones cost time, and no photo shows
// them.
double widest_spread(double diameter_mm) {
    return std::sqrt(std::log(diameter_mm / 0.2) / 3);
}

FoamRecipe any_foam(Dice& dice) {
    FoamRecipe foam;
    foam.seed = dice.seed();
    foam.openness = openness(dice);
    foam.diameter_mm = dice.ratio(foam.openness > 0.6 ? 1.6 : 0.5, 2.5 + 15 * foam.openness);
    foam.spread = std::min(dice.between(0.2, 0.75), widest_spread(foam.diameter_mm));
    foam.matrix_share = dice.chance(0.25) ? 0 : dice.between(0.05, 0.5);
    foam.matrix_mm = dice.between(0.4, 1.8);
    if (dice.chance(0.3)) {
        foam.cavern_share = dice.between(0.05, 0.45);
        foam.cavern_mm = dice.between(5, 17);
    }
    foam.fines_per_mm3 = dice.chance(0.35) ? dice.between(0, 1) : dice.ratio(1, 9);
    foam.lobed = dice.between(0, 0.9);
    foam.clinging = dice.between(0, 0.6);
    foam.elongation = dice.between(1.0, 2.3);
    foam.direction = dice.between(0, pi);
    foam.alignment = dice.between(0, 0.7);
    // Where cells touch everywhere, a few missing walls join them all.
    const double walled = 1 - 0.75 * foam.openness;
    foam.open_pairs = walled * dice.between(0, 0.28);
    foam.torn_pairs = walled * dice.between(0, 0.3);
    foam.wall_mm = dice.between(0.08, 0.24);
    foam.wall_spread_mm = dice.between(0.02, 0.4);
    foam.irregularity = dice.between(0, 1.15);
    foam.patchiness = dice.between(0, 0.3);
    foam.roughness_mm = dice.between(0, 0.06);
    foam.rim_mm = dice.chance(0.45) ? 0 : dice.ratio(0.04, 0.2);
    foam.crust_zone_mm = dice.between(2, 14);
    return foam;
}

// Round cells with whole, smooth walls and hardly a pore in them, as in even, well moulded crumb:
// what tells a shallow one from the cut is the light on its slopes alone.
FoamRecipe smooth_foam(Dice& dice) {
    FoamRecipe foam = any_foam(dice);
    foam.diameter_mm = dice.ratio(foam.openness > 0.6 ? 1.3 : 0.5, 2 + 10 * foam.openness);
    foam.spread = std::min(dice.between(0.2, 0.75), widest_spread(foam.diameter_mm));
    foam.matrix_share = dice.chance(0.4) ? 0 : dice.between(0.05, 0.6);
    foam.matrix_mm = dice.ratio(0.45, 1.6);
    foam.fines_per_mm3 = dice.chance(0.6) ? 0 : dice.ratio(0.1, 2.5);
    foam.lobed = dice.chance(0.4) ? 0 : dice.between(0, 0.7);
    foam.elongation = dice.between(1.0, 1.9);
    const double walled = 1 - 0.75 * foam.openness;
    foam.open_pairs = walled * dice.between(0, 0.25);
    foam.torn_pairs = dice.chance(0.5) ? 0 : walled * dice.between(0, 0.25);
    foam.wall_mm = dice.ratio(0.06, 0.4);
    foam.wall_spread_mm = dice.between(0, 0.4);
    foam.irregularity = dice.chance(0.35) ? 0 : dice.between(0, 0.6);
    foam.roughness_mm = dice.chance(0.6) ? 0 : dice.between(0, 0.04);
    return foam;
}

constexpr std::array flours{
    Colour{0.80f, 0.72f, 0.55f}, Colour{0.76f, 0.64f, 0.43f}, Colour{0.72f, 0.57f, 0.33f},
    Colour{0.62f, 0.52f, 0.38f}, Colour{0.52f, 0.40f, 0.26f}, Colour{0.42f, 0.30f, 0.18f},
    Colour{0.33f, 0.26f, 0.19f}, Colour{0.23f, 0.16f, 0.10f}, Colour{0.15f, 0.09f, 0.05f}};

void add_grains(Dice& dice, BreadLook& look) {
    const bool branny = dice.chance(0.7);
    look.bran_share = branny ? dice.f(0.0, 0.4) : 0;
    look.bran_mm = static_cast<float>(dice.ratio(0.6, 2.4));
    look.bran = look.crumb * Colour{dice.f(0.15, 0.75), dice.f(0.12, 0.6), dice.f(0.1, 0.5)};
    look.pale_bran = dice.chance(0.4) ? dice.f(0, 1) : 0;
    if (!dice.chance(0.2)) return;
    constexpr std::array seeds{Colour{0.05f, 0.05f, 0.06f}, Colour{0.20f, 0.10f, 0.05f},
                               Colour{0.30f, 0.22f, 0.14f}, Colour{0.62f, 0.56f, 0.44f},
                               Colour{0.75f, 0.68f, 0.52f}, Colour{0.25f, 0.28f, 0.14f}};
    look.seed_share = dice.f(0.1, 0.6);
    look.seed_mm = static_cast<float>(dice.ratio(2.5, 12));
    look.seed_colour = seeds[static_cast<std::size_t>(dice.pick(seeds.size()))];
    look.seed_proud = dice.f(0, 1.3);
}

BreadLook bread(Dice& dice) {
    BreadLook look;
    const auto flour = [&] { return flours[static_cast<std::size_t>(dice.pick(flours.size()))]; };
    look.crumb = mix(flour(), flour(), dice.f(0, 0.5)) * dice.f(0.85, 1.08);
    const float skin = dice.f(0.82, 1.06), warmth = dice.f(0.94, 1.0);
    look.film = look.crumb * Colour{skin, skin * warmth, skin * warmth * dice.f(0.9, 1.0)};
    look.crust_top = mix(Colour{0.50f, 0.30f, 0.12f}, Colour{0.09f, 0.04f, 0.02f}, dice.f(0, 1));
    look.crust_base = mix(Colour{0.45f, 0.27f, 0.13f}, Colour{0.12f, 0.06f, 0.03f}, dice.f(0, 1));
    add_grains(dice, look);
    look.mottle = dice.f(0.02, 0.15);
    look.bump = dice.f(0.1, 0.8);
    look.face_bump = dice.f(0.05, 0.6);
    look.bump_mm = static_cast<float>(dice.ratio(0.18, 0.7));
    look.knife = dice.chance(0.6) ? dice.f(0, 0.12) : 0;
    look.knife_direction = dice.f(0, pi);
    look.knife_pitch_mm = dice.f(0.4, 2.2);
    look.smear = dice.chance(0.5) ? dice.f(0.05, 0.5) : 0;
    look.flour_dust = dice.chance(0.4) ? dice.f(0.2, 0.8) : 0;
    look.rim_mm = static_cast<float>(dice.ratio(0.03, 0.4));
    look.rim_bend = dice.f(0, 1.3);
    look.lip_bend = dice.chance(0.5) ? 0 : dice.f(0, 1.2);
    look.face_dust = dice.chance(0.12) ? dice.f(0.1, 0.45) : 0;
    look.sheen = dice.chance(0.4) ? static_cast<float>(dice.ratio(0.1, 0.9)) : 0;
    look.sheen_exponent = static_cast<float>(dice.ratio(3, 40));
    look.transmission = dice.chance(0.6) ? dice.f(0, 0.5) : 0;
    look.seed = dice.seed();
    return look;
}

// Walls of the crumb's own colour, as smooth or rough as may be.
BreadLook plain_bread(Dice& dice) {
    BreadLook look = bread(dice);
    const float skin = dice.chance(0.5) ? 1 : dice.f(0.85, 1.12);
    look.film = look.crumb * skin;
    look.bump = static_cast<float>(dice.ratio(0.03, 0.6));
    look.face_bump = static_cast<float>(dice.ratio(0.03, 0.6));
    look.bump_mm = static_cast<float>(dice.ratio(0.13, 0.7));
    look.smear = dice.chance(0.8) ? 0 : look.smear;
    look.transmission = dice.chance(0.7) ? 0 : look.transmission;
    return look;
}

// Half of the views in hard or low light from any side, the others in window or room light.
Light light(Dice& dice) {
    Light light;
    const Colour zenith{dice.f(0.75, 1.05), dice.f(0.85, 1.0), dice.f(0.75, 1.1)};
    light.zenith = zenith;
    light.horizon = zenith * dice.f(0.1, 1.0);
    const double azimuth = dice.between(0, 2 * pi);
    const double up = std::asin(dice.between(std::sin(7 * pi / 180), std::sin(86 * pi / 180)));
    const Vec3 towards{static_cast<float>(std::cos(azimuth) * std::cos(up)),
                       static_cast<float>(std::sin(azimuth) * std::cos(up)),
                       static_cast<float>(-std::sin(up))};
    const Colour tint = mix(Colour{1.0f, 0.98f, 0.95f}, Colour{1.0f, 0.76f, 0.5f}, dice.f(0, 1));
    light.glow = tint * (dice.chance(0.6) ? dice.f(0, 1.2) : 0.0f);
    light.glow_direction = normalised({towards.x, towards.y, -dice.f(0.1, 0.8)});
    const double distance = dice.ratio(400, 1800);
    light.lamp_centre = towards * static_cast<float>(distance);
    light.lamp_radius = static_cast<float>(distance * dice.ratio(0.02, 0.6));
    const double sine = std::min(0.99, light.lamp_radius / distance);
    const double solid_angle = 2 * pi * (1 - std::sqrt(1 - sine * sine));
    // Its light on a surface facing it, over that of the sky.
    const double strength = dice.chance(0.1) ? 0 : dice.ratio(0.2, 5);
    light.lamp = tint * static_cast<float>(strength * luminance(zenith) * pi / solid_angle);
    return light;
}

TableLook table(Dice& dice) {
    TableLook look;
    constexpr std::array surfaces{Surface::wood, Surface::dark_cloth, Surface::slate,
                                  Surface::linen};
    look.surface = surfaces[static_cast<std::size_t>(dice.pick(4))];
    const float tone = static_cast<float>(dice.ratio(0.4, 1.7));
    look.tint = {tone * dice.f(0.85, 1.15), tone, tone * dice.f(0.8, 1.2)};
    look.grain_angle = dice.f(0, pi);
    look.seed = dice.seed();
    look.has_target = dice.chance(0.4);  // paper, white or printed, from edge to edge
    look.sheet_left = look.sheet_top = -1000;
    look.sheet_right = look.sheet_bottom = 1000;
    look.ruler_y = 2000;
    if (dice.chance(0.4)) {
        look.field = MatField::blue;
        look.field_left = look.field_top = -1000;
        look.field_right = look.field_bottom = 1000;
    }
    return look;
}

Development development(Dice& dice) {
    Development how;
    how.seed = dice.seed();
    how.translucency = dice.chance(0.3) ? 0 : dice.between(0.1, 0.75);
    how.translucency_mm = dice.between(0.15, 0.8);
    how.defocus_px = dice.ratio(0.3, 1.9);
    how.vignetting = 0;
    how.exposure_stops = dice.between(-0.7, 0.9);
    how.warmth = dice.between(-0.35, 0.35);
    how.shot_noise = dice.ratio(0.003, 0.045);
    how.read_noise = dice.ratio(0.001, 0.01);
    how.contrast = dice.between(0, 0.6);
    how.saturation = dice.between(0.85, 1.3);
    how.sharpening = dice.chance(0.25) ? 0 : dice.between(0, 1.6);
    return how;
}

// A steady hand, a good lens, and crumb that keeps its light.
Development sharp_development(Dice& dice) {
    Development how = development(dice);
    how.translucency = dice.chance(0.6) ? 0 : dice.between(0.05, 0.4);
    how.translucency_mm = dice.between(0.1, 0.5);
    how.defocus_px = dice.ratio(0.2, 0.9);
    how.shot_noise = dice.ratio(0.002, 0.03);
    return how;
}

RimRecipe rim(Dice& dice) {
    RimRecipe rim;
    rim.present = dice.chance(0.35);
    rim.direction = dice.f(0, 2 * pi);
    rim.distance_mm = dice.f(-9, 19);
    rim.curvature = dice.chance(0.5) ? 0 : dice.f(0, 0.025);
    rim.roughness_mm = dice.f(0.1, 0.8);
    rim.crust_mm = static_cast<float>(dice.ratio(0.5, 5));
    rim.seed = dice.seed();
    return rim;
}

}  // namespace

ViewRecipe random_view(std::uint32_t seed) {
    Dice dice(hash32(seed, 9001));
    ViewRecipe view;
    view.seed = hash32(seed, 9002);
    // Clear views have all three: even crumb, plain walls, a sharp photo. Others have each at
    // times.
    const double each = dice.chance(0.35) ? 1 : 0.25;
    view.foam = dice.chance(each) ? smooth_foam(dice) : any_foam(dice);
    const bool torn = dice.chance(0.25);
    if (torn) {
        view.foam.torn_mm = dice.ratio(0.3, 3);
        view.foam.torn_share = dice.between(0.3, 1.1);
    }
    view.rim = rim(dice);
    view.bread = dice.chance(each) ? plain_bread(dice) : bread(dice);
    // What was torn is crumb through and through, not the skin of a cell.
    if (torn) view.bread.film = view.bread.crumb * dice.f(0.94, 1.06);
    view.light = light(dice);
    view.table = table(dice);
    view.development = dice.chance(each) ? sharp_development(dice) : development(dice);
    view.thickness_mm = dice.chance(0.15) ? dice.between(22, 32) : dice.between(8, 20);
    view.gap_mm = dice.chance(0.3) ? 1.1 : 0.15;
    view.pixels_per_mm = dice.ratio(6, 25);
    const double tilt = dice.between(0, 26) * pi / 180, side = dice.between(0, 2 * pi);
    const double distance = dice.between(250, 600);
    view.eye = {static_cast<float>(distance * std::sin(tilt) * std::cos(side)) + dice.f(-60, 60),
                static_cast<float>(distance * std::sin(tilt) * std::sin(side)) + dice.f(-60, 60),
                static_cast<float>(-distance * std::cos(tilt))};
    return view;
}

PlaneFieldGrid view_fields(const RimRecipe& rim, double half_mm) {
    PlaneFieldGrid grid;
    grid.step = rim.present ? 0.25 : 1;
    grid.x0 = grid.y0 = -half_mm;
    grid.nx = grid.ny = static_cast<int>(std::ceil(2 * half_mm / grid.step)) + 1;
    grid.nodes.assign(static_cast<std::size_t>(grid.nx) * grid.ny, PlaneSample{-1000, 1000, 2});
    if (!rim.present) return grid;
    const float c = std::cos(rim.direction), s = std::sin(rim.direction);
    for (int j = 0; j < grid.ny; ++j)
        for (int i = 0; i < grid.nx; ++i) {
            const float x = static_cast<float>(grid.x0 + i * grid.step),
                        y = static_cast<float>(grid.y0 + j * grid.step);
            const float along = -x * s + y * c;
            const float wave =
                rim.roughness_mm * (2.0f * value_noise({along / 28, 0.5f, 0.5f}, rim.seed) +
                                    value_noise({along / 9, 1.5f, 0.5f}, rim.seed + 1) +
                                    0.35f * value_noise({along / 2.2f, 2.5f, 0.5f}, rim.seed + 2));
            const float outline =
                x * c + y * s - rim.distance_mm + 0.5f * rim.curvature * along * along + wave;
            const float crust =
                rim.crust_mm * (1 + 0.35f * value_noise({along / 7, 3.5f, 0.5f}, rim.seed + 3));
            grid.nodes[static_cast<std::size_t>(j) * grid.nx + i] = {outline, -outline - crust,
                                                                     crust};
        }
    return grid;
}

}  // namespace loafmark::training
