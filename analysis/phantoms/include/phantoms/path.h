// Light transport of one ray: diffuse path tracing with the lamp sampled at every surface.
#pragma once

#include "phantoms/meet_things.h"

namespace loafmark::phantoms {

enum class HitKind { sky, face, cavity, side, table, card, plate, solid };

struct Hit {
    HitKind kind = HitKind::sky;
    Vec3 point;
    Vec3 normal;    // geometric, towards the side that the ray came from
    int item = -1;  // which slice or solid
    float t = 0;    // distance along the ray, mm
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

// How far above solid bread p lies, or less, where voxels end before the slice does.
LOAFMARK_DEVICE inline float above_solid(const SliceView& slice, Vec3 p) {
    const float above = slice.solid_from - p.z;
    if (above > 2.5f) return above - 1;
    return above - 0.5f + 0.5f * value_noise({p.x / 3, p.y / 3, 0.5f}, slice.bread.seed + 61);
}

// Distance that a ray may safely advance from p: the level set, and far outside the loaf the
// distance to its outline.
LOAFMARK_DEVICE inline float clearance(const SliceView& slice, Vec3 p) {
    const VoxelGrid& grid = grid_at(slice.level, p.z);
    const float near = p.z < slice.solid_from ? sample(grid, p) : 127 * grid.quantum;
    if (p.z > slice.solid_from - 3) {
        const float outline = plane_at(slice.fields, p.x, p.y).outline;
        return std::fmax(outline, std::fmin(near, above_solid(slice, p)));
    }
    if (near < 120 * grid.quantum) return near;
    return std::fmax(near, plane_at(slice.fields, p.x, p.y).outline - 0.5f);
}

// Unit normal of the bread's surface near p, into the air.
LOAFMARK_DEVICE inline Vec3 bread_normal(const SliceView& slice, Vec3 p) {
    if (p.z < slice.solid_from - 1.2f) return normal_at(slice.level, p);
    constexpr float h = 0.2f;
    return normalised({clearance(slice, p + Vec3{h, 0, 0}) - clearance(slice, p - Vec3{h, 0, 0}),
                       clearance(slice, p + Vec3{0, h, 0}) - clearance(slice, p - Vec3{0, h, 0}),
                       clearance(slice, p + Vec3{0, 0, h}) - clearance(slice, p - Vec3{0, 0, h})});
}

LOAFMARK_DEVICE inline Hit bread_hit(const SliceView& slice, Vec3 p, float t) {
    const bool outside = plane_at(slice.fields, p.x, p.y).outline > -0.25f;
    return {outside ? HitKind::side : HitKind::cavity, p, bread_normal(slice, p), -1, t};
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

// Where the ray first meets one of the slices.
LOAFMARK_DEVICE inline Hit meet_slices(const SceneView& scene, Vec3 o, Vec3 d) {
    Hit nearest;
    for (int i = 0; i < scene.slice_count; ++i) {
        const SliceView& slice = scene.slices[i];
        Hit hit = meet_slice(slice, turned_in(slice.place, o - slice.place.origin),
                             turned_in(slice.place, d));
        if (hit.kind == HitKind::sky || (nearest.kind != HitKind::sky && hit.t > nearest.t))
            continue;
        hit.point = turned_out(slice.place, hit.point) + slice.place.origin;
        hit.normal = turned_out(slice.place, hit.normal);
        hit.item = i;
        nearest = hit;
    }
    return nearest;
}

LOAFMARK_DEVICE inline Hit meet_scene(const SceneView& scene, Vec3 o, Vec3 d) {
    Hit hit = meet_slices(scene, o, d);
    float before = hit.kind == HitKind::sky ? 1e9f : hit.t;
    const SolidMeeting solid = meet_solids(scene, o, d, before);
    if (solid.t > 0) {
        const Vec3 p = o + d * solid.t;
        hit = {HitKind::solid, p, rod_normal(scene.solids[solid.solid], p), solid.solid, solid.t};
        before = solid.t;
    }
    if (scene.plate.there) {
        const PlateMeeting plate = meet_plate(scene.plate, o, d);
        if (plate.t > 0 && plate.t < before) {
            hit = {HitKind::plate, o + d * plate.t, plate.normal, -1, plate.t};
            before = plate.t;
        }
    }
    if (scene.card_stands) {
        const float t = meet_card(scene.look, o, d);
        if (t > 0 && t < before) {
            hit = {HitKind::card, o + d * t, {0, 0, d.z > 0 ? -1.0f : 1.0f}, -1, t};
            before = t;
        }
    }
    const float table = meet_table(scene.table, o, d);
    if (table < 0 || table > before) return hit;
    return {HitKind::table, o + d * table, scene.table.up, -1, table};
}

struct Shading {
    Colour albedo;
    Vec3 normal;
    float sheen = 0;
    float sheen_exponent = 1;
    float transmission = 0;  // share of the light that passes
};

// Thickness below which a wall lets light through, mm.
inline constexpr float film_mm = 0.35f;

// A wall with air close behind.
LOAFMARK_DEVICE inline bool is_film(const SliceView& slice, const Hit& hit) {
    return hit.kind == HitKind::cavity &&
           level_at(slice.level, hit.point - hit.normal * film_mm) > 0.02f;
}

// In the slice's own frame.
// Of the light that meets the bread here, the share that a thin wall lets through.
LOAFMARK_DEVICE inline float transmission_at(const SliceView& slice, const Hit& hit) {
    return slice.bread.transmission > 0 && is_film(slice, hit) ? slice.bread.transmission : 0;
}

LOAFMARK_DEVICE inline Shading bread_shading(const SliceView& slice, const Hit& hit) {
    const BreadPart part = hit.kind == HitKind::face     ? BreadPart::face
                           : hit.kind == HitKind::cavity ? BreadPart::cavity
                                                         : BreadPart::side;
    Colour albedo = bread_albedo(slice.bread, slice.fields, part, hit.point);
    Vec3 normal = hit.normal;
    if (part == BreadPart::face) {
        const float inside = -level_at(slice.level, hit.point);
        if (inside < slice.bread.rim_mm) {
            const Vec3 slope = normal_at(slice.level, hit.point + Vec3{0, 0, 0.05f});
            const float bend = slice.bread.rim_bend * (1 - inside / slice.bread.rim_mm);
            normal = normalised(normal + Vec3{slope.x, slope.y, 0} * bend);
        }
    } else if (part == BreadPart::cavity) {
        if (slice.bread.lip_bend > 0 && hit.point.z < slice.bread.rim_mm) {
            const float bend = slice.bread.lip_bend * (1 - hit.point.z / slice.bread.rim_mm);
            normal = normalised(normal + Vec3{0, 0, -bend});
        }
        // Another cell close behind makes the wall a film: thinner, greyer.
        const float behind = level_at(slice.level, hit.point - hit.normal * 0.3f);
        albedo = albedo * (1 - 0.22f * smooth_step(-0.1f, 0.15f, behind));
    }
    return {albedo, bumped_normal(slice.bread, part, hit.point, normal), slice.bread.sheen,
            slice.bread.sheen_exponent, transmission_at(slice, hit)};
}

LOAFMARK_DEVICE inline Hit seen_from(const Placement& place, Hit hit) {
    hit.point = turned_in(place, hit.point - place.origin);
    hit.normal = turned_in(place, hit.normal);
    return hit;
}

// After the first bounce only the mean look of bread matters.
LOAFMARK_DEVICE inline Colour mean_albedo(const SliceView& slice, Vec3 p) {
    const PlaneSample here = plane_at(slice.fields, p.x, p.y);
    const float t = smooth_step(-0.7f * here.crust_mm, 0.7f * here.crust_mm, here.crumb_depth);
    return mix(slice.bread.crust_top, slice.bread.film, t);
}

LOAFMARK_DEVICE inline Colour albedo_of_table(const SceneView& scene, Vec3 p) {
    const Vec3 from = p - scene.table.point;
    const float x = dot(from, scene.table.right), y = dot(from, scene.table.down);
    return scene.card_stands ? surface_albedo(scene.look, x, y) * scene.look.tint
                             : table_albedo(scene.look, x, y);
}

LOAFMARK_DEVICE inline Shading solid_shading(const SceneView& scene, const Hit& hit,
                                             bool in_detail) {
    const Solid& solid = scene.solids[hit.item];
    if (!in_detail) return {solid.colour, hit.normal};
    const Vec3 bump = vector_noise(hit.point * 2.5f, scene.look.seed + 71);
    const float tone = 1 + 0.25f * value_noise(hit.point * 3.0f, scene.look.seed + 72);
    const float rough = solid.radius < 2 ? 0.6f : 0.1f;
    return {solid.colour * tone, normalised(hit.normal + bump * rough)};
}

LOAFMARK_DEVICE inline Shading shading_at(const SceneView& scene, const Hit& hit, bool in_detail) {
    if (scene.white_everywhere > 0) {
        const float w = scene.white_everywhere;
        return {{w, w, w}, hit.normal};
    }
    if (hit.kind == HitKind::table) return {albedo_of_table(scene, hit.point), hit.normal};
    if (hit.kind == HitKind::card)
        return {
            hit.normal.z < 0 ? card_albedo(scene.look, hit.point.x, hit.point.y) : scene.look.paper,
            hit.normal};
    if (hit.kind == HitKind::plate) return {scene.plate.colour, hit.normal};
    if (hit.kind == HitKind::solid) return solid_shading(scene, hit, in_detail);
    const SliceView& slice = scene.slices[hit.item];
    const Hit local = seen_from(slice.place, hit);
    if (!in_detail)
        return {mean_albedo(slice, local.point), hit.normal, 0, 1, transmission_at(slice, local)};
    Shading shading = bread_shading(slice, local);
    shading.normal = turned_out(slice.place, shading.normal);
    return shading;
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
                                            const Shading& at, Choice choice) {
    const LampSample lamp = sample_lamp(scene.light, p, choice.u, choice.v);
    const float cosine = dot(n, lamp.direction);
    if (cosine <= 0) return {};
    if (meet_scene(scene, p, lamp.direction).kind != HitKind::sky) return {};
    const Colour diffuse = scene.light.lamp * (cosine * lamp.solid_angle * 0.31830989f);
    if (at.sheen <= 0) return {diffuse, {}};
    // Blinn's half-way lobe with its usual normalisation; water throws 4 % back.
    const float half = clamped(dot(n, normalised(lamp.direction - towards)), 0, 1);
    const float e = at.sheen_exponent;
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
        const bool passes = at.transmission > 0 && random.next() < at.transmission;
        const Vec3 side = passes ? -hit.normal : hit.normal;
        const Vec3 facing = passes ? -at.normal : at.normal;
        const Vec3 off = hit.point + side * (passes ? film_mm : 0.03f);
        if (lamp_on) {
            const Choice c = bounce == 0 ? choices.lamp : Choice{random.next(), random.next()};
            const LampLight lamp = lamp_light(scene, off, facing, d, at, c);
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
