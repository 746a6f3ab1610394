// Where light comes from: a smooth sky (the room) and one round lamp or window of finite size.
#pragma once

#include "phantoms/random.h"
#include "phantoms/vec3.h"

namespace loafmark::phantoms {

// Directions and positions are in the scene's frame.
struct Light {
    Colour zenith{1, 1, 1};   // radiance of the room overhead
    Colour horizon{1, 1, 1};  // and at the table's level
    Colour glow;              // added towards glow_direction: a bright wall, falling off broadly
    Vec3 glow_direction{0, 0, -1};
    Colour lamp;  // radiance of the lamp's disc; black: no lamp
    Vec3 lamp_centre{0, 0, -1000};
    float lamp_radius = 50;  // mm; large is a window, small a hard lamp
    // Above 0: what stands behind a standing loaf, as blurred shapes; the strength of their
    // colours.
    float backdrop = 0;
    std::uint32_t backdrop_seed = 1;
    Vec3 up{0, 0, -1};
};

// A kitchen out of focus, seen towards +z: tall soft-edged shapes of different tone.
LOAFMARK_DEVICE inline Colour backdrop_tone(const Light& light, Vec3 d) {
    const float right = d.x / (d.z + 0.2f), up = dot(d, light.up);
    Colour tone{1, 1, 1};
    for (std::uint32_t i = 0; i < 6; ++i) {
        RandomStream random(hash32(light.backdrop_seed, i));
        const float middle = random.between(-1.2f, 1.2f), half = random.between(0.05f, 0.4f);
        const float low = random.between(-0.1f, 0.45f), high = low + random.between(0.1f, 0.7f);
        const float dark = random.between(0.15f, 1.6f), warm = random.between(-0.3f, 0.4f);
        const float soft = 0.03f;
        const float inside_x = smooth_step(half + soft, half - soft, std::fabs(right - middle));
        const float inside_y =
            smooth_step(low - soft, low + soft, up) * smooth_step(high + soft, high - soft, up);
        tone =
            mix(tone, Colour{1 + warm, 1, 1 - warm} * dark, light.backdrop * inside_x * inside_y);
    }
    return tone;
}

LOAFMARK_DEVICE inline Colour sky_radiance(const Light& light, Vec3 direction) {
    const float up = clamped(dot(direction, light.up), 0, 1);
    const float towards = clamped(dot(direction, light.glow_direction), 0, 1);
    const Colour sky = mix(light.horizon, light.zenith, up) + light.glow * (towards * towards);
    return light.backdrop > 0 && direction.z > 0 ? sky * backdrop_tone(light, direction) : sky;
}

struct LampSample {
    Vec3 direction;
    float solid_angle;  // sr of the lamp seen from the point; 1 / density of the direction
};

// A direction uniform over the lamp's cone as seen from p; u and v are uniform in [0, 1).
LOAFMARK_DEVICE inline LampSample sample_lamp(const Light& light, Vec3 p, float u, float v) {
    const Vec3 to = light.lamp_centre - p;
    const float distance = length(to);
    const float sine = clamped(light.lamp_radius / distance, 0, 0.999f);
    const float cosine_limit = std::sqrt(1 - sine * sine);
    const float cosine = 1 - u * (1 - cosine_limit);
    const float s = std::sqrt(std::fmax(0.0f, 1 - cosine * cosine));
    const float angle = 6.2831853f * v;
    const Vec3 axis = to * (1 / distance);
    const Vec3 a =
        normalised(std::fabs(axis.x) > 0.5f ? Vec3{-axis.z, 0, axis.x} : Vec3{0, axis.z, -axis.y});
    const Vec3 b = cross(axis, a);
    return {axis * cosine + a * (s * std::cos(angle)) + b * (s * std::sin(angle)),
            6.2831853f * (1 - cosine_limit)};
}

// A direction about the unit normal n, cosine-weighted.
LOAFMARK_DEVICE inline Vec3 cosine_direction(Vec3 n, float u, float v) {
    const float r = std::sqrt(u), angle = 6.2831853f * v;
    const Vec3 a = normalised(std::fabs(n.x) > 0.5f ? Vec3{-n.z, 0, n.x} : Vec3{0, n.z, -n.y});
    const Vec3 b = cross(n, a);
    return a * (r * std::cos(angle)) + b * (r * std::sin(angle)) +
           n * std::sqrt(std::fmax(0.0f, 1 - u));
}

}  // namespace loafmark::phantoms
