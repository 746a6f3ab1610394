#include "phantoms/render.h"

#include <cmath>

#include "parallel.h"

namespace loafmark::phantoms {

namespace {

Vec3 single(const std::array<double, 3>& v) {
    return {static_cast<float>(v[0]), static_cast<float>(v[1]), static_cast<float>(v[2])};
}

void set_pixel(Radiance& out, std::size_t at, const PixelValue& value) {
    out.light[at] = value.radiance;
    out.bread[at] = value.bread;
}

template <class Work>
void for_each_pixel(int width, int height, int threads, const Work& work) {
    constexpr int strip = 4;
    parallel_for((height + strip - 1) / strip, threads, [&](int s) {
        for (int y = s * strip; y < std::min(height, (s + 1) * strip); ++y)
            for (int x = 0; x < width; ++x)
                work(x, y, static_cast<std::size_t>(y) * width + x);
    });
}

// Whether one ray a pixel cannot be right: what lies here differs from a neighbour.
class Differences {
  public:
    Differences(const Radiance& first, std::vector<HitKind> kinds)
        : width_(first.width), height_(first.height), kinds_(std::move(kinds)) {
        for (const Colour& c : first.light)
            tone_.push_back(luminance(c));
    }
    [[nodiscard]] bool at(int x, int y) const {
        const std::size_t here = index(x, y);
        return (x > 0 && differ(here, here - 1)) || (x + 1 < width_ && differ(here, here + 1)) ||
               (y > 0 && differ(here, here - width_)) ||
               (y + 1 < height_ && differ(here, here + width_));
    }

  private:
    [[nodiscard]] std::size_t index(int x, int y) const {
        return static_cast<std::size_t>(y) * width_ + x;
    }
    [[nodiscard]] bool differ(std::size_t a, std::size_t b) const {
        const bool edge = kinds_[a] != kinds_[b] && is_bread(kinds_[a]) != is_bread(kinds_[b]);
        constexpr float least_contrast = 0.33f;
        return edge || std::fabs(tone_[a] - tone_[b]) > least_contrast * (tone_[a] + tone_[b]);
    }
    int width_, height_;
    std::vector<HitKind> kinds_;
    std::vector<float> tone_;
};

}  // namespace

PixelCamera pixel_camera(const Camera& camera) {
    PixelCamera out;
    out.eye = single(camera.eye);
    out.right = single(camera.right);
    out.down = single(camera.down);
    out.forward = single(camera.forward);
    out.focal = static_cast<float>(camera.focal_pixels());
    out.centre_x = static_cast<float>(camera.width - 1) / 2;
    out.centre_y = static_cast<float>(camera.height - 1) / 2;
    out.distortion = static_cast<float>(camera.distortion);
    out.half_diagonal = static_cast<float>(std::hypot(camera.width, camera.height) / 2);
    return out;
}

namespace {

// One ray for every pixel, more where a pixel differs from its neighbours.
void render_sparsely(const SceneView& scene, const PixelCamera& camera, int most,
                     std::uint32_t seed, int threads, Radiance& out) {
    std::vector<HitKind> kinds(out.light.size());
    for_each_pixel(out.width, out.height, threads, [&](int x, int y, std::size_t at) {
        const PixelRays ray = pixel_rays(scene, camera, x, y, 0, 1, seed);
        set_pixel(out, at, mean_of(ray, 1));
        kinds[at] = ray.kind;
    });
    const Differences differences(out, std::move(kinds));
    for_each_pixel(out.width, out.height, threads, [&](int x, int y, std::size_t at) {
        if (!differences.at(x, y)) return;
        const PixelRays first{out.light[at], out.bread[at], true, HitKind::sky};
        const PixelRays all = first + pixel_rays(scene, camera, x, y, 1, most, seed);
        set_pixel(out, at, mean_of(all, most));
    });
}

}  // namespace

Radiance render(const SceneView& scene, const PixelCamera& camera, int width, int height,
                SampleCount samples, std::uint32_t seed, int threads) {
    Radiance out{width, height, {}, {}};
    const std::size_t pixels = static_cast<std::size_t>(width) * height;
    out.light.resize(pixels);
    out.bread.resize(pixels);
    if (samples.least == 1)
        render_sparsely(scene, camera, samples.most, seed, threads, out);
    else
        for_each_pixel(width, height, threads, [&](int x, int y, std::size_t at) {
            set_pixel(out, at, render_pixel(scene, camera, x, y, samples, seed));
        });
    return out;
}

}  // namespace loafmark::phantoms
