// One pixel of a photo: rays through it, averaged. The innermost function that a graphics card
// runs.
#pragma once

#include "phantoms/path.h"

namespace loafmark::phantoms {

// A pinhole in the slice frame, ready for rays.
struct PixelCamera {
    Vec3 eye;
    Vec3 right;
    Vec3 down;
    Vec3 forward;
    float focal = 1000;  // pixels
    float centre_x = 0;
    float centre_y = 0;
    float distortion = 0;  // see Camera::distortion
    float half_diagonal = 1;
};

LOAFMARK_DEVICE inline Vec3 ray_direction(const PixelCamera& camera, float x, float y) {
    float u = x - camera.centre_x, v = y - camera.centre_y;
    const float r2 = (u * u + v * v) / (camera.half_diagonal * camera.half_diagonal);
    const float k = 1 + camera.distortion * r2;
    u *= k;
    v *= k;
    return normalised(camera.forward * camera.focal + camera.right * u + camera.down * v);
}

struct SampleCount {
    int least = 4;  // rays through every pixel
    int most = 14;  // rays where one of the least met a cavity or an edge of the bread
};

struct PixelValue {
    Colour radiance;
    float bread = 0;  // share of the rays that met the slice
};

// The fractional part of start + i times an irrational step: evenly spread choices.
LOAFMARK_DEVICE inline float spread(float start, int i, float step) {
    const float v = start + static_cast<float>(i) * step;
    return v - static_cast<float>(static_cast<int>(v));
}

LOAFMARK_DEVICE inline PixelValue render_pixel(const SceneView& scene, const PixelCamera& camera,
                                               int x, int y, SampleCount samples,
                                               std::uint32_t seed) {
    const std::uint32_t key =
        hash32(static_cast<std::uint32_t>(x) + 65537U * static_cast<std::uint32_t>(y), seed);
    RandomStream start(key);
    float offsets[6];
    for (float& offset : offsets)
        offset = start.next();
    PixelValue sum;
    int count = samples.least;
    for (int i = 0; i < count; ++i) {
        // Steps of the R2 sequence (powers of the plastic number) and of square roots of primes.
        const float dx = spread(offsets[0], i, 0.75487767f),
                    dy = spread(offsets[1], i, 0.56984029f);
        const FirstChoices choices{
            {spread(offsets[2], i, 0.41421356f), spread(offsets[3], i, 0.73205081f)},
            {spread(offsets[4], i, 0.23606798f), spread(offsets[5], i, 0.64575131f)}};
        const Vec3 d = ray_direction(camera, static_cast<float>(x) + dx - 0.5f,
                                     static_cast<float>(y) + dy - 0.5f);
        const PathResult path =
            trace_path(scene, camera.eye, d, choices,
                       RandomStream(hash32(key, static_cast<std::uint32_t>(i) + 1)));
        sum.radiance = sum.radiance + path.radiance;
        const bool bread = path.first == HitKind::face || path.first == HitKind::cavity ||
                           path.first == HitKind::side;
        sum.bread += bread ? 1.0f : 0.0f;
        if (path.first != HitKind::face && path.first != HitKind::table) count = samples.most;
        if (i + 1 == samples.least && sum.bread > 0 && sum.bread < static_cast<float>(i + 1))
            count = samples.most;
    }
    const float share = 1 / static_cast<float>(count);
    return {sum.radiance * share, sum.bread * share};
}

}  // namespace loafmark::phantoms
