// Small vectors of the rendering core: positions in mm, directions, and linear-light colours.
#pragma once

#include <cmath>

#include "phantoms/portable.h"

namespace loafmark::phantoms {

struct Vec3 {
    float x = 0;
    float y = 0;
    float z = 0;
};

LOAFMARK_DEVICE inline Vec3 operator+(Vec3 a, Vec3 b) {
    return {a.x + b.x, a.y + b.y, a.z + b.z};
}
LOAFMARK_DEVICE inline Vec3 operator-(Vec3 a, Vec3 b) {
    return {a.x - b.x, a.y - b.y, a.z - b.z};
}
LOAFMARK_DEVICE inline Vec3 operator-(Vec3 a) {
    return {-a.x, -a.y, -a.z};
}
LOAFMARK_DEVICE inline Vec3 operator*(Vec3 a, float k) {
    return {a.x * k, a.y * k, a.z * k};
}
LOAFMARK_DEVICE inline float dot(Vec3 a, Vec3 b) {
    return a.x * b.x + a.y * b.y + a.z * b.z;
}
LOAFMARK_DEVICE inline Vec3 cross(Vec3 a, Vec3 b) {
    return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}
LOAFMARK_DEVICE inline float length(Vec3 a) {
    return std::sqrt(dot(a, a));
}
// The direction of a; straight up (0, 0, -1) for a vector without one.
LOAFMARK_DEVICE inline Vec3 normalised(Vec3 a) {
    const float l = length(a);
    return l > 1e-9f ? a * (1 / l) : Vec3{0, 0, -1};
}

// Red, green, blue in linear light (sRGB primaries): a reflectance 0..1, or a radiance.
struct Colour {
    float r = 0;
    float g = 0;
    float b = 0;
};

LOAFMARK_DEVICE inline Colour operator+(Colour a, Colour b) {
    return {a.r + b.r, a.g + b.g, a.b + b.b};
}
LOAFMARK_DEVICE inline Colour operator*(Colour a, Colour b) {
    return {a.r * b.r, a.g * b.g, a.b * b.b};
}
LOAFMARK_DEVICE inline Colour operator*(Colour a, float k) {
    return {a.r * k, a.g * k, a.b * k};
}
LOAFMARK_DEVICE inline Colour mix(Colour a, Colour b, float t) {
    return a * (1 - t) + b * t;
}
LOAFMARK_DEVICE inline float largest(Colour a) {
    return std::fmax(a.r, std::fmax(a.g, a.b));
}
LOAFMARK_DEVICE inline float luminance(Colour a) {
    return 0.2126f * a.r + 0.7152f * a.g + 0.0722f * a.b;
}

LOAFMARK_DEVICE inline float clamped(float v, float low, float high) {
    return v < low ? low : (v > high ? high : v);
}
// 0 below `from`, 1 above `to`, smooth in between.
LOAFMARK_DEVICE inline float smooth_step(float from, float to, float v) {
    const float t = clamped((v - from) / (to - from), 0, 1);
    return t * t * (3 - 2 * t);
}
// std::floor as an int without a library call; for |v| < 2^31.
LOAFMARK_DEVICE inline int floor_int(float v) {
    const int i = static_cast<int>(v);
    return i - (v < static_cast<float>(i) ? 1 : 0);
}

}  // namespace loafmark::phantoms
