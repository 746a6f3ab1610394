#include "phantoms/render.h"

#include <cmath>

#include "parallel.h"

namespace loafmark::phantoms {

namespace {

Vec3 single(const std::array<double, 3>& v) {
    return {static_cast<float>(v[0]), static_cast<float>(v[1]), static_cast<float>(v[2])};
}

void set_pixel(Radiance& out, std::size_t at, const PixelRays& rays, int count) {
    const float share = 1 / static_cast<float>(count);
    out.light[at] = rays.radiance * share;
    out.bread[at] = rays.bread * share;
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

Radiance render(const SceneView& scene, const PixelCamera& camera, int width, int height,
                SampleCount samples, std::uint32_t seed, int threads) {
    Radiance out{width, height, {}, {}};
    const std::size_t pixels = static_cast<std::size_t>(width) * height;
    out.light.resize(pixels);
    out.bread.resize(pixels);
    std::vector<HitKind> kinds(pixels);
    const bool sparse = samples.least == 1;
    for_each_pixel(width, height, threads, [&](int x, int y, std::size_t at) {
        PixelRays rays = pixel_rays(scene, camera, x, y, 0, samples.least, seed);
        int count = samples.least;
        const bool mixed = rays.bread > 0 && rays.bread < static_cast<float>(count);
        if (!sparse && (mixed || !rays.flat)) {
            rays = rays + pixel_rays(scene, camera, x, y, count, samples.most, seed);
            count = samples.most;
        }
        set_pixel(out, at, rays, count);
        kinds[at] = rays.kind;
    });
    if (!sparse || samples.most == 1) return out;
    const Differences differences(out, std::move(kinds));
    for_each_pixel(width, height, threads, [&](int x, int y, std::size_t at) {
        if (!differences.at(x, y)) return;
        const PixelRays first{out.light[at], out.bread[at], true, HitKind::sky};
        set_pixel(out, at, first + pixel_rays(scene, camera, x, y, 1, samples.most, seed),
                  samples.most);
    });
    return out;
}

}  // namespace loafmark::phantoms
