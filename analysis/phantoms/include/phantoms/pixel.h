// One pixel of a photo: rays through it, averaged. The innermost function that a graphics card
// runs.
#pragma once

#include "phantoms/path.h"

namespace loafmark::phantoms {

// A pinhole in the scene's frame, ready for rays.
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
    // Rays where one of the least met a cavity or an edge of the bread; where `least` is one, where
    // a pixel differs from its neighbours.
    int most = 14;
};

// Sums over some rays through one pixel.
struct PixelRays {
    Colour radiance;
    float bread = 0;              // rays that met a slice
    bool flat = true;             // all met the cut, or table, card or plate
    HitKind kind = HitKind::sky;  // of the last
};

// The fractional part of start + i times an irrational step: evenly spread choices.
LOAFMARK_DEVICE inline float spread(float start, int i, float step) {
    const float v = start + static_cast<float>(i) * step;
    return v - static_cast<float>(static_cast<int>(v));
}

LOAFMARK_DEVICE inline bool is_bread(HitKind kind) {
    return kind == HitKind::face || kind == HitKind::cavity || kind == HitKind::side;
}

// The rays `first` to `end` - 1 of the sequence that belongs to the pixel.
LOAFMARK_DEVICE inline PixelRays pixel_rays(const SceneView& scene, const PixelCamera& camera,
                                            int x, int y, int first, int end, std::uint32_t seed) {
    const std::uint32_t key =
        hash32(static_cast<std::uint32_t>(x) + 65537U * static_cast<std::uint32_t>(y), seed);
    RandomStream start(key);
    float offsets[6];
    for (float& offset : offsets)
        offset = start.next();
    PixelRays sum;
    for (int i = first; i < end; ++i) {
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
        sum.bread += is_bread(path.first) ? 1.0f : 0.0f;
        sum.flat = sum.flat && path.first != HitKind::cavity && path.first != HitKind::side &&
                   path.first != HitKind::solid;
        sum.kind = path.first;
    }
    return sum;
}

LOAFMARK_DEVICE inline PixelRays operator+(PixelRays a, const PixelRays& b) {
    return {a.radiance + b.radiance, a.bread + b.bread, a.flat && b.flat, b.kind};
}

struct PixelValue {
    Colour radiance;
    float bread = 0;  // share of the rays that met a slice
};

LOAFMARK_DEVICE inline PixelValue mean_of(const PixelRays& rays, int count) {
    const float share = 1 / static_cast<float>(count);
    return {rays.radiance * share, rays.bread * share};
}

LOAFMARK_DEVICE inline PixelValue render_pixel(const SceneView& scene, const PixelCamera& camera,
                                               int x, int y, SampleCount samples,
                                               std::uint32_t seed) {
    const PixelRays rays = pixel_rays(scene, camera, x, y, 0, samples.least, seed);
    const bool mixed = rays.bread > 0 && rays.bread < static_cast<float>(samples.least);
    if (rays.flat && !mixed) return mean_of(rays, samples.least);
    return mean_of(rays + pixel_rays(scene, camera, x, y, samples.least, samples.most, seed),
                   samples.most);
}

}  // namespace loafmark::phantoms
