// Light transport of one ray: diffuse path tracing with the lamp sampled at every surface.
#pragma once

#include "phantoms/scene_view.h"

namespace loafmark::phantoms {

enum class HitKind { sky, face, cavity, side, table, morsel };

struct Hit {
    HitKind kind = HitKind::sky;
    Vec3 point;
    Vec3 normal;  // geometric, towards the side that the ray came from
    int morsel = -1;
    float t = 0;  // distance along the ray, mm
};

struct Span {
    float from;
    float to;
};

// The part of the ray o + t d inside the box; from > to where it misses.
LOAFMARK_DEVICE inline Span clip_to_box(Vec3 low, Vec3 high, Vec3 o, Vec3 d) {
    Span s{0, 1e9f};
    const float os[3] = {o.x, o.y, o.z}, ds[3] = {d.x, d.y, d.z};
    const float ls[3] = {low.x, low.y, low.z}, hs[3] = {high.x, high.y, high.z};
    for (int k = 0; k < 3; ++k) {
        if (std::fabs(ds[k]) < 1e-9f) {
            if (os[k] < ls[k] || os[k] > hs[k]) return {1, 0};
            continue;
        }
        const float a = (ls[k] - os[k]) / ds[k], b = (hs[k] - os[k]) / ds[k];
        s.from = std::fmax(s.from, std::fmin(a, b));
        s.to = std::fmin(s.to, std::fmax(a, b));
    }
    return s;
}

// Distance that a ray may safely advance from p: the level set, and far outside the loaf the
// distance to its outline.
LOAFMARK_DEVICE inline float clearance(const SliceView& slice, Vec3 p) {
    const VoxelGrid& grid = grid_at(slice.level, p.z);
    const float near = sample(grid, p);
    if (near < 120 * grid.quantum) return near;
    return std::fmax(near, plane_at(slice.fields, p.x, p.y).outline - 0.5f);
}

LOAFMARK_DEVICE inline Hit bread_hit(const SliceView& slice, Vec3 p, float t) {
    const bool outside = plane_at(slice.fields, p.x, p.y).outline > -0.25f;
    return {outside ? HitKind::side : HitKind::cavity, p, normal_at(slice.level, p), -1, t};
}

// Where the ray first meets the slice; kind sky where it does not.
LOAFMARK_DEVICE inline Hit meet_slice(const SliceView& slice, Vec3 o, Vec3 d) {
    constexpr float touch = 0.01f, least_step = 0.018f;
    constexpr int most_steps = 220;
    const Span span = clip_to_box(slice.low, slice.high, o, d);
    if (span.from >= span.to) return {};
    float t = span.from;
    if (t > 0) {
        const Vec3 p = o + d * (t + 1e-4f);
        if (clearance(slice, p) < 0) {
            if (p.z < 0.01f) return {HitKind::face, {p.x, p.y, 0}, {0, 0, -1}, -1, t};
            if (p.z > slice.high.z - 0.01f) return {HitKind::side, p, {0, 0, 1}, -1, t};
            return bread_hit(slice, p, t);
        }
    }
    for (int i = 0; i < most_steps && t < span.to; ++i) {
        const Vec3 p = o + d * t;
        const float gap = clearance(slice, p);
        if (gap < touch) return bread_hit(slice, p, t);
        t += std::fmax(0.75f * gap, least_step);
    }
    return {};
}

LOAFMARK_DEVICE inline Hit meet_morsels(const SceneView& scene, Vec3 o, Vec3 d, float before) {
    Hit nearest{HitKind::sky, {}, {}, -1, before};
    for (int i = 0; i < scene.morsel_count; ++i) {
        const Morsel& m = scene.morsels[i];
        const Vec3 to = m.centre - o;
        const float along = dot(to, d);
        const float miss = dot(to, to) - along * along - m.radius * m.radius;
        if (miss > 0) continue;
        const float t = along - std::sqrt(-miss);
        if (t < 1e-3f || t >= nearest.t) continue;
        const Vec3 p = o + d * t;
        nearest = {HitKind::morsel, p, normalised(p - m.centre), i, t};
    }
    return nearest;
}

LOAFMARK_DEVICE inline Hit meet_scene(const SceneView& scene, Vec3 o, Vec3 d) {
    Hit hit = meet_slice(scene.slice, o, d);
    if (hit.kind != HitKind::sky) return hit;
    const float to_table = d.z > 1e-6f ? (scene.table_z - o.z) / d.z : 1e9f;
    const bool low = o.z > scene.table_z - 5 || d.z > 0;  // morsels lie low on the table
    if (low && scene.morsel_count > 0) {
        hit = meet_morsels(scene, o, d, to_table);
        if (hit.kind != HitKind::sky) return hit;
    }
    if (d.z <= 1e-6f || to_table < 0) return {};
    return {HitKind::table, o + d * to_table, {0, 0, -1}, -1, to_table};
}

struct Shading {
    Colour albedo;
    Vec3 normal;
    float sheen = 0;
};

// Thickness below which a wall lets light through, mm.
inline constexpr float film_mm = 0.35f;

// A wall with air close behind.
LOAFMARK_DEVICE inline bool is_film(const SceneView& scene, const Hit& hit) {
    return hit.kind == HitKind::cavity &&
           level_at(scene.slice.level, hit.point - hit.normal * film_mm) > 0.02f;
}

LOAFMARK_DEVICE inline Shading bread_shading(const SceneView& scene, const Hit& hit) {
    const BreadPart part = hit.kind == HitKind::face     ? BreadPart::face
                           : hit.kind == HitKind::cavity ? BreadPart::cavity
                                                         : BreadPart::side;
    Colour albedo = bread_albedo(scene.bread, scene.slice.fields, part, hit.point);
    Vec3 normal = hit.normal;
    if (part == BreadPart::face) {
        // The cut's rim is never sharp: it bends into the opening beside it.
        const float inside = -level_at(scene.slice.level, hit.point);
        if (inside < 0.15f) {
            const Vec3 slope = normal_at(scene.slice.level, hit.point + Vec3{0, 0, 0.05f});
            const float bend = 0.7f * (1 - inside / 0.15f);
            normal = normalised(normal + Vec3{slope.x, slope.y, 0} * bend);
        }
    } else if (part == BreadPart::cavity) {
        // Another cell close behind makes the wall a film: thinner, greyer.
        const float behind = level_at(scene.slice.level, hit.point - hit.normal * 0.3f);
        albedo = albedo * (1 - 0.22f * smooth_step(-0.1f, 0.15f, behind));
    }
    return {albedo, bumped_normal(scene.bread, part, hit.point, normal), scene.bread.sheen};
}

// After the first bounce only the mean look of a surface matters.
LOAFMARK_DEVICE inline Colour mean_albedo(const SceneView& scene, const Hit& hit) {
    if (hit.kind == HitKind::morsel) return scene.morsels[hit.morsel].colour;
    const PlaneSample here = plane_at(scene.slice.fields, hit.point.x, hit.point.y);
    const float t = smooth_step(-0.7f * here.crust_mm, 0.7f * here.crust_mm, here.crumb_depth);
    return mix(scene.bread.crust_top, scene.bread.film, t);
}

LOAFMARK_DEVICE inline Shading shading_at(const SceneView& scene, const Hit& hit, bool in_detail) {
    if (scene.white_everywhere > 0) {
        const float w = scene.white_everywhere;
        return {{w, w, w}, hit.normal};
    }
    if (hit.kind == HitKind::table) {
        const float x = scene.target_cos * hit.point.x - scene.target_sin * hit.point.y;
        const float y = scene.target_sin * hit.point.x + scene.target_cos * hit.point.y;
        return {table_albedo(scene.table, x + scene.target_tx, y + scene.target_ty), hit.normal};
    }
    if (!in_detail) return {mean_albedo(scene, hit), hit.normal};
    if (hit.kind == HitKind::morsel) {
        const Vec3 bump = vector_noise(hit.point * 2.5f, scene.bread.seed + 71);
        const float tone = 1 + 0.25f * value_noise(hit.point * 3.0f, scene.bread.seed + 72);
        return {scene.morsels[hit.morsel].colour * tone, normalised(hit.normal + bump * 0.6f)};
    }
    return bread_shading(scene, hit);
}

// Two uniform numbers for one choice of direction.
struct Choice {
    float u;
    float v;
};

struct LampLight {
    Colour diffuse;  // per steradian-cosine / pi, to be multiplied with the albedo
    Colour gloss;    // what a sheen of strength 1 throws back along the ray
};

// Light that reaches a surface point straight from the lamp. `towards`: the ray's own direction.
LOAFMARK_DEVICE inline LampLight lamp_light(const SceneView& scene, Vec3 p, Vec3 n, Vec3 towards,
                                            Choice choice) {
    const LampSample lamp = sample_lamp(scene.light, p, choice.u, choice.v);
    const float cosine = dot(n, lamp.direction);
    if (cosine <= 0) return {};
    if (meet_scene(scene, p, lamp.direction).kind != HitKind::sky) return {};
    const Colour diffuse = scene.light.lamp * (cosine * lamp.solid_angle * 0.31830989f);
    if (scene.bread.sheen <= 0) return {diffuse, {}};
    // Blinn's half-way lobe with its usual normalisation; water throws 4 % back.
    const float half = clamped(dot(n, normalised(lamp.direction - towards)), 0, 1);
    const float e = scene.bread.sheen_exponent;
    return {diffuse, diffuse * (0.04f * (e + 8) * 0.125f * std::pow(half, e))};
}

// The room as a dull mirror shows it, of strength 1; stronger at grazing angles (Schlick 1994).
LOAFMARK_DEVICE inline Colour room_gloss(const SceneView& scene, Vec3 n, Vec3 d) {
    const float cosine = clamped(-dot(n, d), 0, 1);
    const Vec3 mirrored = d + n * (2 * cosine);
    const float grazing = (1 - cosine) * (1 - cosine) * (1 - cosine) * (1 - cosine) * (1 - cosine);
    return sky_radiance(scene.light, mirrored) * (0.04f + 0.96f * grazing);
}

// The first choices of a path, spread evenly over the samples of a pixel; the rest are random.
struct FirstChoices {
    Choice lamp;
    Choice bounce;
};

struct PathResult {
    Colour radiance;
    HitKind first = HitKind::sky;
};

// Radiance that arrives at o from direction d (a unit vector).
LOAFMARK_DEVICE inline PathResult trace_path(const SceneView& scene, Vec3 o, Vec3 d,
                                             FirstChoices choices, RandomStream random) {
    PathResult result;
    Colour through{1, 1, 1};
    const bool lamp_on = largest(scene.light.lamp) > 0;
    for (int bounce = 0; bounce <= scene.max_bounces; ++bounce) {
        const Hit hit = meet_scene(scene, o, d);
        if (bounce == 0) result.first = hit.kind;
        if (hit.kind == HitKind::sky) {
            result.radiance = result.radiance + through * sky_radiance(scene.light, d);
            break;
        }
        const Shading at = shading_at(scene, hit, bounce == 0);
        if (bounce == 0 && at.sheen > 0)
            result.radiance = result.radiance + room_gloss(scene, at.normal, d) * at.sheen;
        const Colour before = through;
        through = through * at.albedo;
        // Some light passes a thin wall and goes on from its other side.
        const bool passes = scene.bread.transmission > 0 && is_film(scene, hit) &&
                            random.next() < scene.bread.transmission;
        const Vec3 side = passes ? -hit.normal : hit.normal;
        const Vec3 facing = passes ? -at.normal : at.normal;
        const Vec3 off = hit.point + side * (passes ? film_mm : 0.03f);
        if (lamp_on) {
            const Choice c = bounce == 0 ? choices.lamp : Choice{random.next(), random.next()};
            const LampLight lamp = lamp_light(scene, off, facing, d, c);
            result.radiance = result.radiance + through * lamp.diffuse;
            if (!passes) result.radiance = result.radiance + before * lamp.gloss * at.sheen;
        }
        if (scene.roulette && bounce >= 1) {
            const float survive = clamped(largest(through), 0.05f, 1);
            if (random.next() >= survive) break;
            through = through * (1 / survive);
        }
        const Choice c = bounce == 0 ? choices.bounce : Choice{random.next(), random.next()};
        d = cosine_direction(facing, c.u, c.v);
        const float above = dot(d, side);
        if (above < 0) d = d - side * (2 * above);
        o = off;
    }
    return result;
}

}  // namespace loafmark::phantoms
