// What bread looks like at a point: its reflectance and the small bumps that no voxel resolves.
#pragma once

#include "phantoms/plane_fields.h"
#include "phantoms/random.h"

namespace loafmark::phantoms {

// Which kind of bread surface a ray met.
enum class BreadPart { face, cavity, side };

struct BreadLook {
    Colour crumb{0.70f, 0.60f, 0.44f};
    Colour film{0.62f, 0.52f, 0.37f};  // the skin that lines a cell
    Colour crust_top{0.30f, 0.14f, 0.05f};
    Colour crust_base{0.34f, 0.18f, 0.08f};
    Colour bran{0.20f, 0.10f, 0.04f};
    float bran_share = 0.05f;      // of lattice cells that hold a flake; half of it for coarse ones
    float bran_mm = 1.2f;          // spacing of that lattice
    float mottle = 0.08f;          // relative unevenness of the crumb's colour
    float bump = 0.35f;            // roughness of cell walls, tangent of the slope
    float face_bump = 0.25f;       // roughness of the cut
    float bump_mm = 0.35f;         // its grain
    float knife = 0.03f;           // strength of the knife's scoring
    float knife_direction = 0.3f;  // radians
    float knife_pitch_mm = 0.9f;
    // The cut's rim is never sharp: over this width it bends into the opening beside it...
    float rim_mm = 0.15f;
    float rim_bend = 0.7f;  // ...by this much at most, tangent of the slope
    float lip_bend = 0;     // and the cell's wall bends out to meet it
    float smear = 0;        // share of the face that the knife tore or smeared
    float flour_dust = 0;   // share of the crust under flour
    float face_dust = 0;    // share of the cut under flour or fine crumbs
    float pale_bran = 0;    // share of the flakes that are paler than the crumb, not darker
    // Whole seeds: on the cut discs or domes of their own, in cells' walls patches of their colour.
    float seed_share = 0;  // of lattice cells that hold one
    float seed_mm = 5;     // spacing of that lattice; a seed is 0.16 to 0.4 of it long
    Colour seed_colour{0.10f, 0.07f, 0.05f};
    float seed_proud = 0;  // how much a seed stands out of the cut, tangent of its rim's slope
    // Wet or fatty crumb shines: strength of the lamp's and the room's reflection, 0 dull.
    float sheen = 0;
    float sheen_exponent = 20;  // of the lamp's highlight; large: a small one
    // Share of the light that passes a wall thinner than 0.35 mm.
    float transmission = 0;
    std::uint32_t seed = 1;
};

// A seed's hold on a point: 0 beside it, 1 in it; `outward` in the cut's plane from its middle, 1
// at its rim.
struct SeedSample {
    float inside = 0;
    Vec3 outward;
    float tone = 1;
};

LOAFMARK_DEVICE inline SeedSample seed_at(const BreadLook& look, Vec3 p) {
    if (look.seed_share <= 0) return {};
    const Vec3 q = p * (1 / look.seed_mm);
    const int x = floor_int(q.x), y = floor_int(q.y), z = floor_int(q.z + 0.5f);
    const std::uint32_t h = lattice_hash(x, y, z, look.seed * 29U + 11U);
    if (unit_float(h) >= look.seed_share) return {};
    const std::uint32_t h2 = hash32(h, 1), h3 = hash32(h, 2);
    const float cx = static_cast<float>(x) + 0.45f + 0.1f * unit_float(h2);
    const float cy = static_cast<float>(y) + 0.45f + 0.1f * unit_float(hash32(h2));
    const float cz = static_cast<float>(z) + 0.3f * (unit_float(hash32(h2, 5)) - 0.5f);
    const float angle = 6.2831853f * unit_float(h3);
    const float c = std::cos(angle), s = std::sin(angle);
    const float along = (q.x - cx) * c + (q.y - cy) * s;
    const float across = -(q.x - cx) * s + (q.y - cy) * c;
    const float half = 0.16f + 0.24f * unit_float(hash32(h3, 3));
    const float slim = half * (0.4f + 0.6f * unit_float(hash32(h3, 4)));
    const float a = along / half, b = across / slim, d = (q.z - cz) / slim;
    const float r2 = a * a + b * b + d * d;
    if (r2 >= 1) return {};
    const Vec3 outward{a * c - b * s, a * s + b * c, 0};
    return {smooth_step(1, 0.85f, r2), outward, 0.8f + 0.4f * unit_float(hash32(h3, 6))};
}

// 0 outside any flake of a lattice of `spacing_mm`; inside one 1, or -1 where it is pale. The
// lattice's cells lie half above and half below the cut, so that it meets flakes too.
LOAFMARK_DEVICE inline int flake_of(const BreadLook& look, float spacing_mm, float share,
                                    std::uint32_t key, Vec3 p) {
    const Vec3 q = p * (1 / spacing_mm);
    const int x = floor_int(q.x), y = floor_int(q.y), z = floor_int(q.z + 0.5f);
    const std::uint32_t h = lattice_hash(x, y, z, look.seed * 31U + key);
    if (unit_float(h) >= share) return 0;
    const std::uint32_t h2 = hash32(h), h3 = hash32(h2);
    const Vec3 centre{0.3f + 0.4f * unit_float(h2), 0.3f + 0.4f * unit_float(hash32(h2, 1)),
                      0.4f * unit_float(hash32(h2, 2)) - 0.2f};
    const Vec3 local =
        q - Vec3{static_cast<float>(x), static_cast<float>(y), static_cast<float>(z)} - centre;
    const float angle = 6.2831853f * unit_float(h3);
    const float along = local.x * std::cos(angle) + local.y * std::sin(angle);
    const float across = -local.x * std::sin(angle) + local.y * std::cos(angle);
    const float size = 0.08f + 0.22f * unit_float(hash32(h3, 1)) * unit_float(hash32(h3, 2));
    const float slim = 0.35f + 0.5f * unit_float(hash32(h3, 3));
    const float a = along / size, b = across / (size * slim), c = local.z / (size * slim);
    if (a * a + b * b + c * c >= 1 + 0.5f * value_noise(p * 6.0f, look.seed + 3)) return 0;
    return unit_float(hash32(h3, 9)) < look.pale_bran ? -1 : 1;
}

// The same for flakes of every size: fine ones, and half as many in a lattice twice as wide.
LOAFMARK_DEVICE inline int bran_flake(const BreadLook& look, Vec3 p) {
    if (look.bran_share <= 0) return 0;
    const int coarse = flake_of(look, 2.2f * look.bran_mm, 0.5f * look.bran_share, 8U, p);
    return coarse != 0 ? coarse : flake_of(look, look.bran_mm, look.bran_share, 7U, p);
}

// Whether a flake of bran or a seed lies at a place of the solid cut: dark or bright, no opening.
LOAFMARK_DEVICE inline bool is_speck(const BreadLook& look, Vec3 p) {
    return bran_flake(look, p) != 0 || seed_at(look, p).inside > 0.5f;
}

// 0 in clean cut, 1 where the knife tore or smeared.
LOAFMARK_DEVICE inline float smear_at(const BreadLook& look, Vec3 p) {
    if (look.smear <= 0) return 0;
    const float n = 0.5f + 0.5f * value_noise({p.x / 9, p.y / 9, 0.5f}, look.seed + 17);
    const float fine = 0.5f + 0.5f * value_noise({p.x / 2, p.y / 2, 0.5f}, look.seed + 18);
    return smooth_step(1 - look.smear - 0.1f, 1 - look.smear + 0.1f, 0.7f * n + 0.3f * fine);
}

LOAFMARK_DEVICE inline float knife_wave(const BreadLook& look, Vec3 p) {
    const float across =
        -p.x * std::sin(look.knife_direction) + p.y * std::cos(look.knife_direction);
    const float along = p.x * std::cos(look.knife_direction) + p.y * std::sin(look.knife_direction);
    const float wander = 1.5f * value_noise({along / 30, across / 12, 3.5f}, look.seed + 21);
    return value_noise({along / 25, (across + wander) / look.knife_pitch_mm, 9.5f}, look.seed + 22);
}

LOAFMARK_DEVICE inline float face_dust_at(const BreadLook& look, Vec3 p) {
    const float cloud = 0.5f + 0.5f * value_noise({p.x / 7, p.y / 7, 0.5f}, look.seed + 81);
    const float grain = 0.5f + 0.5f * value_noise({p.x / 0.3f, p.y / 0.3f, 0.5f}, look.seed + 82);
    return smooth_step(1 - look.face_dust, 1.2f - look.face_dust, 0.5f * cloud + 0.5f * grain);
}

LOAFMARK_DEVICE inline Colour crust_colour(const BreadLook& look, Vec3 p, float height) {
    const float base = smooth_step(8, 1, height);
    const float patches = value_noise(p * (1 / 7.0f), look.seed + 31);
    const float grain = value_noise(p * (1 / 0.6f), look.seed + 32);
    Colour c = mix(look.crust_top, look.crust_base, base) * (1 + 0.35f * patches + 0.2f * grain);
    const float dust = value_noise(p * (1 / 4.0f), look.seed + 33) * 0.5f + 0.5f;
    const float speckle = value_noise(p * (1 / 0.35f), look.seed + 34) * 0.5f + 0.5f;
    const float floury =
        smooth_step(1 - look.flour_dust, 1.15f - look.flour_dust, 0.6f * dust + 0.4f * speckle);
    return mix(c, {0.72f, 0.68f, 0.60f}, 0.8f * floury * (1 - base));
}

// Mixes two colours so that the middle is half-way in lightness, not in light.
LOAFMARK_DEVICE inline Colour lightness_mix(Colour a, Colour b, float t) {
    const Colour m{std::cbrt(a.r) + t * (std::cbrt(b.r) - std::cbrt(a.r)),
                   std::cbrt(a.g) + t * (std::cbrt(b.g) - std::cbrt(a.g)),
                   std::cbrt(a.b) + t * (std::cbrt(b.b) - std::cbrt(a.b))};
    return {m.r * m.r * m.r, m.g * m.g * m.g, m.b * m.b * m.b};
}

// Reflectance at p, clipped to 0.01..0.95. From the crust's colour 0.3 mm inside the outline to the
// crumb's, half-way in lightness where the crust is said to end.
LOAFMARK_DEVICE inline Colour bread_albedo(const BreadLook& look, const PlaneFields& fields,
                                           BreadPart part, Vec3 p) {
    const PlaneSample here = plane_at(fields, p.x, p.y);
    const float mottle = look.mottle * (value_noise(p * (1 / 6.0f), look.seed + 1) +
                                        0.8f * value_noise(p * (1 / 0.45f), look.seed + 2) +
                                        1.0f * value_noise(p * (1 / 0.17f), look.seed + 4));
    Colour inner =
        mix(look.crumb, look.film, part == BreadPart::cavity ? 1.0f : 0.0f) * (1 + mottle);
    if (part == BreadPart::face) {
        const float torn = smear_at(look, p);
        inner = inner * (1 + look.knife * knife_wave(look, p)) *
                (1 + torn * (0.05f + 0.15f * value_noise(p * 1.3f, look.seed + 41)));
    }
    const int flake = bran_flake(look, p);
    if (flake != 0)
        inner = mix(inner, flake > 0 ? look.bran : look.crumb * 0.4f + Colour{0.5f, 0.46f, 0.38f},
                    0.85f);
    if (part == BreadPart::face && look.face_dust > 0)
        inner = mix(inner, {0.74f, 0.70f, 0.62f}, 0.8f * face_dust_at(look, p));
    const SeedSample seed = seed_at(look, p);
    inner = mix(inner, look.seed_colour * seed.tone, seed.inside);
    const float reach = std::fmax(here.crust_mm - 0.3f, 0.1f);
    const float t = smooth_step(-reach, reach, here.crumb_depth);
    const Colour crust = t < 1 ? crust_colour(look, p, -p.y) : inner;
    Colour c = part == BreadPart::side ? crust : lightness_mix(crust, inner, t);
    return {clamped(c.r, 0.01f, 0.95f), clamped(c.g, 0.01f, 0.95f), clamped(c.b, 0.01f, 0.95f)};
}

// The normal n tilted by the surface's own roughness.
LOAFMARK_DEVICE inline Vec3 bumped_normal(const BreadLook& look, BreadPart part, Vec3 p, Vec3 n) {
    const float scale = 1 / look.bump_mm;
    Vec3 slope = vector_noise(p * scale, look.seed + 51) +
                 vector_noise(p * (scale * 2.7f), look.seed + 52) * 0.7f;
    float strength = look.bump;
    if (part == BreadPart::cavity)
        slope = slope + vector_noise(p * (scale * 0.37f), look.seed + 53) * 0.8f;
    if (part == BreadPart::face) {
        strength = look.face_bump * (1 + 1.5f * smear_at(look, p));
        const float ridge = 2 * look.knife * knife_wave(look, p);
        slope = slope + Vec3{-std::sin(look.knife_direction), std::cos(look.knife_direction), 0} *
                            (ridge / std::fmax(strength, 0.01f));
        const SeedSample seed = seed_at(look, p);
        if (seed.inside > 0)
            return normalised(n + seed.outward * look.seed_proud + slope * (0.2f * strength));
    }
    return normalised(n + slope * strength);
}

}  // namespace loafmark::phantoms
