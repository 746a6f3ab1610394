#include "phantoms/develop.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "parallel.h"
#include "phantoms/random.h"

namespace loafmark::phantoms {

namespace {

std::vector<float> gaussian_kernel(double sigma) {
    const int reach = std::max(1, static_cast<int>(std::ceil(3 * sigma)));
    std::vector<float> kernel;
    float sum = 0;
    for (int i = -reach; i <= reach; ++i) {
        kernel.push_back(static_cast<float>(std::exp(-0.5 * i * i / (sigma * sigma))));
        sum += kernel.back();
    }
    for (float& k : kernel)
        k /= sum;
    return kernel;
}

// Rows of numbers, `channels` to a pixel.
struct Plane {
    int width = 0;
    int height = 0;
    int channels = 1;
    std::vector<float> values;
    [[nodiscard]] std::size_t row() const { return static_cast<std::size_t>(width) * channels; }
    [[nodiscard]] std::size_t pixels() const { return static_cast<std::size_t>(width) * height; }
    [[nodiscard]] Colour colour(std::size_t pixel) const {
        return {values[pixel * 3], values[pixel * 3 + 1], values[pixel * 3 + 2]};
    }
    void set(std::size_t pixel, Colour c) {
        values[pixel * 3] = c.r;
        values[pixel * 3 + 1] = c.g;
        values[pixel * 3 + 2] = c.b;
    }
};

Plane colours(int width, int height) {
    Plane plane{width, height, 3, {}};
    plane.values.resize(plane.pixels() * 3);
    return plane;
}

// Work on every pixel, rows shared out among threads.
template <class Work>
void for_each_pixel(const Plane& plane, int threads, const Work& work) {
    parallel_for(plane.height, threads, [&](int y) {
        const std::size_t from = static_cast<std::size_t>(y) * plane.width;
        for (std::size_t i = from; i < from + static_cast<std::size_t>(plane.width); ++i)
            work(i);
    });
}

// Doubles its pace where the processor has wide vectors; the results are the same.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__)
__attribute__((target_clones("avx2", "default")))
#endif
void add_scaled(float* to, const float* from, float k, std::size_t count) {
    for (std::size_t i = 0; i < count; ++i)
        to[i] += k * from[i];
}

// Pixels beyond the frame repeat its edge. Row by row: first the rows above and below are added
// up, then what is left is blurred along itself.
Plane blurred(const Plane& in, double sigma, int threads) {
    if (sigma < 0.15) return in;
    const std::vector<float> kernel = gaussian_kernel(sigma);
    const int reach = static_cast<int>(kernel.size()) / 2;
    const auto n = static_cast<std::size_t>(in.channels), edge = reach * n;
    Plane out{in.width, in.height, in.channels, std::vector<float>(in.values.size(), 0.0f)};
    parallel_for(in.height, threads, [&](int y) {
        std::vector<float> padded(in.row() + 2 * edge, 0.0f);
        float* middle = padded.data() + edge;
        for (int k = -reach; k <= reach; ++k) {
            const auto from = static_cast<std::size_t>(std::clamp(y + k, 0, in.height - 1));
            add_scaled(middle, in.values.data() + from * in.row(),
                       kernel[static_cast<std::size_t>(k + reach)], in.row());
        }
        for (std::size_t i = 0; i < edge; ++i) {
            padded[i] = middle[i % n];
            middle[in.row() + i] = middle[in.row() - n + i % n];
        }
        float* to = out.values.data() + static_cast<std::size_t>(y) * in.row();
        for (std::size_t k = 0; k < kernel.size(); ++k)
            add_scaled(to, padded.data() + k * n, kernel[k], in.row());
    });
    return out;
}

// Light that wanders inside the bread: blurs within the bread alone.
Plane wandered(const Radiance& in, const Development& how, double pixels_per_mm, int threads) {
    Plane out = colours(in.width, in.height);
    for_each_pixel(out, threads, [&](std::size_t i) { out.set(i, in.light[i]); });
    const double sigma = how.translucency_mm * pixels_per_mm;
    if (how.translucency <= 0 || sigma < 0.3) return out;
    Plane weighted = colours(in.width, in.height);
    for_each_pixel(out, threads,
                   [&](std::size_t i) { weighted.set(i, in.light[i] * in.bread[i]); });
    weighted = blurred(weighted, sigma, threads);
    const Plane weight = blurred(Plane{in.width, in.height, 1, in.bread}, sigma, threads);
    for_each_pixel(out, threads, [&](std::size_t i) {
        if (in.bread[i] <= 0) return;
        const Colour inner = weighted.colour(i) * (1 / std::max(weight.values[i], 1e-4f));
        out.set(i, mix(in.light[i], inner, static_cast<float>(how.translucency) * in.bread[i]));
    });
    return out;
}

// Metering: the picture's mean, with highlights held back, becomes mid grey.
float metered_gain(const Plane& light, double stops) {
    double sum = 0, top = 0;
    std::vector<float> values;
    for (std::size_t i = 0; i < light.pixels(); i += 37)
        values.push_back(luminance(light.colour(i)));
    for (const float v : values)
        sum += v;
    const std::size_t at = values.size() * 97 / 100;
    std::nth_element(values.begin(), values.begin() + static_cast<long>(at), values.end());
    top = values[at];
    const double mean = sum / static_cast<double>(values.size());
    const double by_mean = 0.28 / std::max(mean, 1e-6), by_top = 0.85 / std::max(top, 1e-6);
    return static_cast<float>(std::min(by_mean, by_top) * std::exp2(stops));
}

// Nearly normal, standard deviation 1: the sum of a hash's four bytes.
float noise(std::uint32_t key) {
    const std::uint32_t h = hash32(key);
    const std::uint32_t sum = (h & 255U) + ((h >> 8) & 255U) + ((h >> 16) & 255U) + (h >> 24);
    constexpr float deviation = 147.8f;  // of four numbers even over 0 to 255
    return (static_cast<float>(sum) - 510) / deviation;
}

Colour sensor_noise(const Development& how, std::size_t pixel) {
    const std::uint32_t key = hash32(static_cast<std::uint32_t>(pixel) * 3U, how.seed);
    return {noise(key), noise(key + 1), noise(key + 2)};
}

// sRGB encoding (IEC 61966-2-1) after an S-curve that leaves black, mid grey and white in place.
float exact_tone(float linear, float contrast) {
    const float v = clamped(linear, 0, 1);
    const float encoded = v <= 0.0031308f ? 12.92f * v : 1.055f * std::pow(v, 1 / 2.4f) - 0.055f;
    const float s = encoded * encoded * (3 - 2 * encoded);
    return encoded + contrast * (s - encoded);
}

// The same from a table, linear between its entries: within a tenth of an 8-bit step.
class Tone {
  public:
    explicit Tone(float contrast) {
        for (int i = 0; i <= steps + 1; ++i)
            table_.push_back(exact_tone(static_cast<float>(i) / steps, contrast));
    }
    [[nodiscard]] float operator()(float linear) const {
        const float at = clamped(linear, 0, 1) * steps;
        const auto i = static_cast<std::size_t>(at);
        return table_[i] + (at - static_cast<float>(i)) * (table_[i + 1] - table_[i]);
    }

  private:
    static constexpr int steps = 8192;
    std::vector<float> table_;
};

void add_lens_and_sensor(Plane& light, const Development& how, int threads) {
    const float gain = metered_gain(light, how.exposure_stops);
    const float warm = static_cast<float>(std::exp2(how.warmth / 2));
    const Colour white = how.illuminant;
    const Colour balance{warm * white.g / white.r, 1, white.g / (white.b * warm)};
    const float shot = static_cast<float>(how.shot_noise * how.shot_noise),
                read = static_cast<float>(how.read_noise * how.read_noise);
    const float cx = static_cast<float>(light.width) / 2, cy = static_cast<float>(light.height) / 2;
    const float loss = static_cast<float>(how.vignetting) / (cx * cx + cy * cy);
    for_each_pixel(light, threads, [&](std::size_t i) {
        const float x = static_cast<float>(i % static_cast<std::size_t>(light.width)) - cx,
                    y = static_cast<float>(i / static_cast<std::size_t>(light.width)) - cy;
        const Colour c = light.colour(i) * (gain * (1 - loss * (x * x + y * y))) * balance;
        const Colour n = sensor_noise(how, i);
        light.set(i, {c.r + n.r * std::sqrt(read + shot * std::max(c.r, 0.0f)),
                      c.g + n.g * std::sqrt(read + shot * std::max(c.g, 0.0f)),
                      c.b + n.b * std::sqrt(read + shot * std::max(c.b, 0.0f))});
    });
}

std::uint8_t byte(float v) {
    return static_cast<std::uint8_t>(clamped(v, 0, 1) * 255 + 0.5f);
}

}  // namespace

Picture develop(const Radiance& radiance, const Development& how, double pixels_per_mm,
                int threads) {
    Plane light = wandered(radiance, how, pixels_per_mm, threads);
    light = blurred(light, how.defocus_px, threads);
    add_lens_and_sensor(light, how, threads);
    light = blurred(light, 0.45, threads);  // demosaicing correlates the noise
    const Tone tone(static_cast<float>(how.contrast));
    for_each_pixel(light, threads, [&](std::size_t i) {
        Colour c = light.colour(i);
        const float grey = luminance(c);
        c = mix(Colour{grey, grey, grey}, c, static_cast<float>(how.saturation));
        light.set(i, {tone(c.r), tone(c.g), tone(c.b)});
    });
    const Plane soft = blurred(light, 1.0, threads);
    Picture photo{light.width, light.height, {}};
    photo.rgb.resize(light.values.size());
    const float sharp = static_cast<float>(how.sharpening);
    for_each_pixel(light, threads, [&](std::size_t i) {
        for (std::size_t k = 3 * i; k < 3 * i + 3; ++k)
            photo.rgb[k] = byte(light.values[k] * (1 + sharp) - soft.values[k] * sharp);
    });
    return photo;
}

}  // namespace loafmark::phantoms
