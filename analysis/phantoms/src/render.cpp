#include "phantoms/render.h"

#include <cmath>

#include "parallel.h"

namespace loafmark::phantoms {

namespace {

using Triple = std::array<double, 3>;

// A target-frame direction seen from the slice's frame.
Vec3 turned(const Triple& v, double angle) {
    const double c = std::cos(angle), s = std::sin(angle);
    return {static_cast<float>(c * v[0] + s * v[1]), static_cast<float>(-s * v[0] + c * v[1]),
            static_cast<float>(v[2])};
}

}  // namespace

PixelCamera in_slice_frame(const Camera& camera, const SlicePose& pose) {
    const Triple from_origin{camera.eye[0] - pose.origin_mm.x, camera.eye[1] - pose.origin_mm.y,
                             camera.eye[2] + pose.height_mm};
    PixelCamera out;
    out.eye = turned(from_origin, pose.angle);
    out.right = turned(camera.right, pose.angle);
    out.down = turned(camera.down, pose.angle);
    out.forward = turned(camera.forward, pose.angle);
    out.focal = static_cast<float>(camera.focal_pixels());
    out.centre_x = static_cast<float>(camera.width - 1) / 2;
    out.centre_y = static_cast<float>(camera.height - 1) / 2;
    out.distortion = static_cast<float>(camera.distortion);
    out.half_diagonal = static_cast<float>(std::hypot(camera.width, camera.height) / 2);
    return out;
}

Radiance render(const SceneView& scene, const PixelCamera& camera, int width, int height,
                SampleCount samples, std::uint32_t seed, int threads) {
    Radiance out{width, height, {}, {}};
    const std::size_t pixels = static_cast<std::size_t>(width) * height;
    out.light.resize(pixels);
    out.bread.resize(pixels);
    constexpr int strip = 4;
    parallel_for((height + strip - 1) / strip, threads, [&](int s) {
        for (int y = s * strip; y < std::min(height, (s + 1) * strip); ++y)
            for (int x = 0; x < width; ++x) {
                const PixelValue v = render_pixel(scene, camera, x, y, samples, seed);
                const std::size_t at = static_cast<std::size_t>(y) * width + x;
                out.light[at] = v.radiance;
                out.bread[at] = v.bread;
            }
    });
    return out;
}

}  // namespace loafmark::phantoms
