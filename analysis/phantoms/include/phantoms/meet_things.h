// Where a ray meets what is not bread: table, card, plate, loose things. Distances along the ray in
// mm; a negative one where it misses.
#pragma once

#include "phantoms/scene_view.h"

namespace loafmark::phantoms {

constexpr float no_meeting = -1;

// d is a unit vector. The endless cylinder's quadratic; where it is met beyond the rod's ends, or
// where the ray runs along it, the ball at the nearer end.
LOAFMARK_DEVICE inline float meet_rod(const Solid& rod, Vec3 o, Vec3 d) {
    const Vec3 axis = rod.to - rod.from, from = o - rod.from;
    const float l2 = dot(axis, axis), r2 = rod.radius * rod.radius;
    Vec3 end = from;
    if (l2 > 1e-8f) {
        const float ad = dot(axis, d), ao = dot(axis, from);
        const float a = l2 - ad * ad, b = l2 * dot(d, from) - ao * ad,
                    c = l2 * dot(from, from) - ao * ao - r2 * l2, h = b * b - a * c;
        if (h < 0) return no_meeting;
        const float t = a > 1e-6f * l2 ? (-b - std::sqrt(h)) / a : 0;
        const float along = ao + t * ad;
        if (a > 1e-6f * l2 && along > 0 && along < l2) return t;
        if (along > 0) end = o - rod.to;
    }
    const float b = dot(d, end), h = b * b - dot(end, end) + r2;
    return h > 0 ? -b - std::sqrt(h) : no_meeting;
}

LOAFMARK_DEVICE inline Vec3 rod_normal(const Solid& rod, Vec3 p) {
    const Vec3 axis = rod.to - rod.from;
    const float l2 = dot(axis, axis);
    const float t = l2 > 1e-8f ? clamped(dot(p - rod.from, axis) / l2, 0, 1) : 0;
    return normalised(p - rod.from - axis * t);
}

struct SolidMeeting {
    float t = no_meeting;
    int solid = -1;
};

// The nearest solid on the ray that is nearer than `before`.
LOAFMARK_DEVICE inline SolidMeeting meet_solids(const SceneView& scene, Vec3 o, Vec3 d,
                                                float before) {
    SolidMeeting nearest;
    for (int k = 0; k < scene.clump_count; ++k) {
        const Clump& clump = scene.clumps[k];
        const Vec3 to = clump.centre - o;
        const float along = dot(to, d), reach = clump.radius;
        if (dot(to, to) - along * along > reach * reach || along < -reach) continue;
        for (int i = clump.first; i < clump.first + clump.count; ++i) {
            const float t = meet_rod(scene.solids[i], o, d);
            if (t > 1e-3f && t < before) {
                nearest = {t, i};
                before = t;
            }
        }
    }
    return nearest;
}

LOAFMARK_DEVICE inline float meet_table(const TablePlane& table, Vec3 o, Vec3 d) {
    const float down = -dot(d, table.up);
    return down > 1e-6f ? dot(o - table.point, table.up) / down : no_meeting;
}

LOAFMARK_DEVICE inline float meet_card(const TableLook& look, Vec3 o, Vec3 d) {
    if (std::fabs(d.z) < 1e-6f) return no_meeting;
    const float t = -o.z / d.z, x = o.x + t * d.x, y = o.y + t * d.y;
    const bool on = t > 1e-3f && inside(x, y, look.sheet_left, look.sheet_top, look.sheet_right,
                                        look.sheet_bottom);
    return on ? t : no_meeting;
}

struct PlateMeeting {
    float t = no_meeting;
    Vec3 normal{0, 0, -1};
};

// The sloping rim: a cone whose radius grows by k a mm of height.
LOAFMARK_DEVICE inline PlateMeeting meet_rim(const Plate& plate, Vec3 from, Vec3 d) {
    const float rise = plate.rim_height - plate.well_height,
                run = plate.rim_radius - plate.well_radius, k = run / rise;
    // Height above the cone's tip along the ray: h + t dh.
    const float h = -from.z - plate.well_height + plate.well_radius / k, dh = -d.z;
    const float a = d.x * d.x + d.y * d.y - k * k * dh * dh;
    const float b = from.x * d.x + from.y * d.y - k * k * h * dh;
    const float c = from.x * from.x + from.y * from.y - k * k * h * h;
    const float root = b * b - a * c;
    if (root < 0 || std::fabs(a) < 1e-9f) return {};
    PlateMeeting nearest;
    for (int sign = -1; sign <= 1; sign += 2) {
        const float t = (-b + static_cast<float>(sign) * std::sqrt(root)) / a;
        const float height = -from.z - t * d.z;
        if (t < 1e-3f || height < plate.well_height || height > plate.rim_height) continue;
        if (nearest.t > 0 && t > nearest.t) continue;
        const float x = from.x + t * d.x, y = from.y + t * d.y, r = std::sqrt(x * x + y * y);
        nearest = {t, normalised({-x / r * rise, -y / r * rise, -run})};
        if (dot(nearest.normal, d) > 0) nearest.normal = -nearest.normal;
    }
    return nearest;
}

// Only for a target that lies on the table.
LOAFMARK_DEVICE inline PlateMeeting meet_plate(const Plate& plate, Vec3 o, Vec3 d) {
    const Vec3 from = o - plate.centre;
    PlateMeeting nearest = meet_rim(plate, from, d);
    if (std::fabs(d.z) < 1e-6f) return nearest;
    const float t = (-plate.well_height - from.z) / d.z;
    const float x = from.x + t * d.x, y = from.y + t * d.y;
    const bool in_well = x * x + y * y < plate.well_radius * plate.well_radius;
    if (t > 1e-3f && in_well && (nearest.t < 0 || t < nearest.t))
        nearest = {t, {0, 0, d.z > 0 ? -1.0f : 1.0f}};
    return nearest;
}

}  // namespace loafmark::phantoms
