// What lies under the slice: a table of wood, cloth or stone, and on it a printed mat or strip.
#pragma once

#include "analysis/target_layout.h"
#include "phantoms/random.h"

namespace loafmark::phantoms {

enum class Surface { wood, dark_cloth, slate, linen, marble, terracotta, checked_cloth, felt };
// What fills the mat between its markers.
enum class MatField { white, blue, frame };

// A printed rectangle: one marker.
struct MarkerPrint {
    float left = 0, top = 0;  // mm in the target's frame
    std::uint16_t bits = 0;
};

struct TableLook {
    Surface surface = Surface::wood;
    Colour tint{1, 1, 1};   // multiplies the surface's own colours
    float grain_angle = 0;  // radians, direction of grain or weave in the target's frame
    bool has_target = true;
    MatField field = MatField::white;
    float sheet_left = 0, sheet_top = 0, sheet_right = 0, sheet_bottom = 0;  // mm, target's frame
    float field_left = 0, field_top = 0, field_right = 0, field_bottom = 0;  // empty: no field
    float ruler_left = 0, ruler_y = 0;                                       // 100 mm long
    MarkerPrint markers[4];
    int marker_count = 0;
    Colour paper{0.80f, 0.81f, 0.82f};
    Colour ink{0.025f, 0.025f, 0.028f};
    Colour field_blue{0.09f, 0.19f, 0.42f};
    std::uint32_t seed = 1;
};

// The prints and sheet of a target, on any surface.
[[nodiscard]] TableLook table_with_target(TargetKind kind, MatField field);

LOAFMARK_DEVICE inline Colour wood_at(float u, float v, std::uint32_t seed) {
    const float plank = static_cast<float>(floor_int(v / 95));
    const float shift =
        40 * unit_float(hash32(static_cast<std::uint32_t>(floor_int(v / 95)), seed));
    const float bend = 6 * value_noise({u / 120, v / 40, plank}, seed + 1);
    const float rings = value_noise({(u + shift) / 260, (v + bend) / 3.2f, plank}, seed + 2);
    const float fibre = value_noise({u / 14, v / 0.35f, plank}, seed + 3);
    const float pores = smooth_step(0.55f, 0.8f, value_noise({u / 5, v / 0.28f, 7.5f}, seed + 4));
    const float t = clamped(0.5f + 0.38f * rings + 0.14f * fibre, 0, 1);
    const Colour c = mix(Colour{0.22f, 0.115f, 0.055f}, {0.46f, 0.29f, 0.155f}, t);
    return c * (1 - 0.3f * pores) *
           (0.92f +
            0.16f * unit_float(hash32(seed, static_cast<std::uint32_t>(floor_int(v / 95)))));
}

// Over and under of a plain weave of the given pitch in mm: brightness factor about 1.
LOAFMARK_DEVICE inline float weave_at(float u, float v, float pitch, std::uint32_t seed) {
    const float wu = u + 0.25f * value_noise({u / 3, v / 11, 1.5f}, seed);
    const float wv = v + 0.25f * value_noise({u / 11, v / 3, 2.5f}, seed + 1);
    const int i = floor_int(wu / pitch), j = floor_int(wv / pitch);
    const float fu = wu / pitch - static_cast<float>(i), fv = wv / pitch - static_cast<float>(j);
    const bool warp_over = ((i + j) & 1) != 0;
    const float across = warp_over ? fu : fv;
    const float round = 1 - 1.6f * (across - 0.5f) * (across - 0.5f);
    const float slub = value_noise({warp_over ? static_cast<float>(i) : u / 8,
                                    warp_over ? v / 8 : static_cast<float>(j), 4.5f},
                                   seed + 2);
    return round * (1 + 0.16f * slub) * (warp_over ? 1.0f : 0.93f);
}

LOAFMARK_DEVICE inline Colour stone_at(float u, float v, Colour dark, Colour light, float vein,
                                       std::uint32_t seed) {
    const float cloud = value_noise({u / 35, v / 35, 0.5f}, seed) +
                        0.5f * value_noise({u / 9, v / 9, 1.5f}, seed + 1) +
                        0.3f * value_noise({u / 0.8f, v / 0.8f, 2.5f}, seed + 2);
    const float ridge = 1 - std::fabs(value_noise({u / 45 + 0.4f * cloud, v / 60, 3.5f}, seed + 3));
    const float t = clamped(0.5f + 0.3f * cloud, 0, 1);
    return mix(dark, light, t) * (1 - vein * smooth_step(0.93f, 1, ridge));
}

LOAFMARK_DEVICE inline Colour surface_albedo(const TableLook& look, float x, float y) {
    const float c = std::cos(look.grain_angle), s = std::sin(look.grain_angle);
    const float u = c * x + s * y, v = -s * x + c * y;
    switch (look.surface) {
        case Surface::wood:
            return wood_at(u, v, look.seed);
        case Surface::dark_cloth:
            return Colour{0.028f, 0.034f, 0.045f} * weave_at(u, v, 0.55f, look.seed);
        case Surface::slate:
            return stone_at(u, v, {0.030f, 0.033f, 0.036f}, {0.065f, 0.070f, 0.075f}, 0, look.seed);
        case Surface::linen:
            return Colour{0.56f, 0.51f, 0.42f} * weave_at(u, v, 0.75f, look.seed);
        case Surface::marble:
            return stone_at(u, v, {0.55f, 0.55f, 0.55f}, {0.74f, 0.73f, 0.71f}, 0.45f, look.seed);
        case Surface::terracotta:
            return stone_at(u, v, {0.34f, 0.13f, 0.07f}, {0.47f, 0.20f, 0.11f}, 0, look.seed);
        case Surface::checked_cloth: {
            const bool a = (floor_int(u / 12) & 1) != 0, b = (floor_int(v / 12) & 1) != 0;
            const float dye = (a ? 0.5f : 0.0f) + (b ? 0.5f : 0.0f);
            return mix(Colour{0.66f, 0.65f, 0.62f}, {0.42f, 0.06f, 0.06f}, dye) *
                   weave_at(u, v, 0.6f, look.seed);
        }
        case Surface::felt: {
            const float fuzz = value_noise({u / 0.5f, v / 0.5f, 0.5f}, look.seed) +
                               value_noise({u / 2.5f, v / 2.5f, 1.5f}, look.seed + 1);
            return Colour{0.17f, 0.18f, 0.17f} * (1 + 0.13f * fuzz);
        }
    }
    return {};
}

LOAFMARK_DEVICE inline bool inside(float x, float y, float left, float top, float right,
                                   float bottom) {
    return x >= left && x < right && y >= top && y < bottom;
}

LOAFMARK_DEVICE inline bool on_ruler(const TableLook& look, float x, float y) {
    const float along = x - look.ruler_left, below = y - look.ruler_y;
    if (along < -0.15f || along > 100.15f) return false;
    if (std::fabs(below) < 0.2f) return true;
    const float to_tick = std::fabs(along - 10 * static_cast<float>(floor_int(along / 10 + 0.5f)));
    const bool end = along < 5 || along > 95;
    return to_tick < 0.15f && below < 0 && below > (end ? -5.0f : -2.5f);
}

// The printed sheet's reflectance at a point on it.
LOAFMARK_DEVICE inline Colour print_albedo(const TableLook& look, float x, float y) {
    const float side = static_cast<float>(marker_side_mm), module = side / marker_modules;
    for (int m = 0; m < look.marker_count; ++m) {
        const MarkerPrint& print = look.markers[m];
        const float u = x - print.left, v = y - print.top;
        if (!inside(u, v, 0, 0, side, side)) continue;
        const int column = floor_int(u / module), row = floor_int(v / module);
        if (row < 1 || row > 4 || column < 1 || column > 4) return look.ink;
        const bool white = ((print.bits >> (15 - ((row - 1) * 4 + column - 1))) & 1) != 0;
        return white ? look.paper : look.ink;
    }
    if (on_ruler(look, x, y)) return look.ink;
    if (!inside(x, y, look.field_left, look.field_top, look.field_right, look.field_bottom))
        return look.paper;
    if (look.field == MatField::blue) return look.field_blue;
    const bool rim = look.field == MatField::frame &&
                     !inside(x, y, look.field_left + 0.8f, look.field_top + 0.8f,
                             look.field_right - 0.8f, look.field_bottom - 0.8f);
    return rim ? look.ink : look.paper;
}

// The printed sheet's reflectance with the paper's own unevenness.
LOAFMARK_DEVICE inline Colour card_albedo(const TableLook& look, float x, float y) {
    const float fibre = 1 + 0.015f * value_noise({x / 0.7f, y / 0.7f, 0.5f}, look.seed + 61);
    return print_albedo(look, x, y) * fibre;
}

// Reflectance of table and target at (x, y) mm in the target's frame.
LOAFMARK_DEVICE inline Colour table_albedo(const TableLook& look, float x, float y) {
    if (look.has_target &&
        inside(x, y, look.sheet_left, look.sheet_top, look.sheet_right, look.sheet_bottom))
        return card_albedo(look, x, y);
    return surface_albedo(look, x, y) * look.tint;
}

}  // namespace loafmark::phantoms
