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

// One direction of a separable blur; pixels beyond the frame repeat its edge.
std::vector<Colour> blurred_along(const std::vector<Colour>& in, int width, int height,
                                  const std::vector<float>& kernel, bool rows, int threads) {
    std::vector<Colour> out(in.size());
    const int reach = static_cast<int>(kernel.size()) / 2;
    parallel_for(height, threads, [&](int y) {
        for (int x = 0; x < width; ++x) {
            Colour sum;
            for (int k = -reach; k <= reach; ++k) {
                const int sx = rows ? std::clamp(x + k, 0, width - 1) : x;
                const int sy = rows ? y : std::clamp(y + k, 0, height - 1);
                sum = sum + in[static_cast<std::size_t>(sy) * width + sx] *
                                kernel[static_cast<std::size_t>(k + reach)];
            }
            out[static_cast<std::size_t>(y) * width + x] = sum;
        }
    });
    return out;
}

std::vector<Colour> blurred(const std::vector<Colour>& in, int width, int height, double sigma,
                            int threads) {
    if (sigma < 0.15) return in;
    const std::vector<float> kernel = gaussian_kernel(sigma);
    return blurred_along(blurred_along(in, width, height, kernel, true, threads), width, height,
                         kernel, false, threads);
}

// Light that wanders inside the bread: blurs within the bread alone.
std::vector<Colour> wandered(const Radiance& in, const Development& how, double pixels_per_mm,
                             int threads) {
    const double sigma = how.translucency_mm * pixels_per_mm;
    if (how.translucency <= 0 || sigma < 0.3) return in.light;
    std::vector<Colour> weighted(in.light.size()), weight(in.light.size());
    for (std::size_t i = 0; i < in.light.size(); ++i) {
        weighted[i] = in.light[i] * in.bread[i];
        weight[i] = {in.bread[i], 0, 0};
    }
    weighted = blurred(weighted, in.width, in.height, sigma, threads);
    weight = blurred(weight, in.width, in.height, sigma, threads);
    std::vector<Colour> out = in.light;
    for (std::size_t i = 0; i < out.size(); ++i) {
        if (in.bread[i] <= 0) continue;
        const Colour inner = weighted[i] * (1 / std::max(weight[i].r, 1e-4f));
        out[i] = mix(out[i], inner, static_cast<float>(how.translucency) * in.bread[i]);
    }
    return out;
}

// Metering: the picture's mean, with highlights held back, becomes mid grey.
float metered_gain(const std::vector<Colour>& light, double stops) {
    double sum = 0, top = 0;
    std::vector<float> values;
    for (std::size_t i = 0; i < light.size(); i += 37)
        values.push_back(luminance(light[i]));
    for (const float v : values)
        sum += v;
    const std::size_t at = values.size() * 97 / 100;
    std::nth_element(values.begin(), values.begin() + static_cast<long>(at), values.end());
    top = values[at];
    const double mean = sum / static_cast<double>(values.size());
    const double by_mean = 0.28 / std::max(mean, 1e-6), by_top = 0.85 / std::max(top, 1e-6);
    return static_cast<float>(std::min(by_mean, by_top) * std::exp2(stops));
}

float gaussian(std::uint32_t key) {
    const float u = std::max(unit_float(hash32(key)), 1e-7f),
                v = unit_float(hash32(key ^ 0x68bc21ebU));
    return std::sqrt(-2 * std::log(u)) * std::cos(6.2831853f * v);
}

Colour sensor_noise(const Development& how, std::size_t pixel) {
    const std::uint32_t key = hash32(static_cast<std::uint32_t>(pixel) * 3U, how.seed);
    return {gaussian(key), gaussian(key + 1), gaussian(key + 2)};
}

// sRGB encoding (IEC 61966-2-1) after an S-curve that leaves black, mid grey and white in place.
float tone(float linear, float contrast) {
    const float v = clamped(linear, 0, 1);
    const float encoded = v <= 0.0031308f ? 12.92f * v : 1.055f * std::pow(v, 1 / 2.4f) - 0.055f;
    const float s = encoded * encoded * (3 - 2 * encoded);
    return encoded + contrast * (s - encoded);
}

void add_lens_and_sensor(std::vector<Colour>& light, int width, int height,
                         const Development& how) {
    const float gain = metered_gain(light, how.exposure_stops);
    const float warm = static_cast<float>(std::exp2(how.warmth / 2));
    const Colour white = how.illuminant;
    const Colour balance{warm * white.g / white.r, 1, white.g / (white.b * warm)};
    const float shot = static_cast<float>(how.shot_noise),
                read = static_cast<float>(how.read_noise);
    const float half = static_cast<float>(std::hypot(width, height)) / 2;
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x) {
            const std::size_t i = static_cast<std::size_t>(y) * width + x;
            const float r = std::hypot(static_cast<float>(x) - static_cast<float>(width) / 2,
                                       static_cast<float>(y) - static_cast<float>(height) / 2) /
                            half;
            Colour c = light[i] * (gain * (1 - static_cast<float>(how.vignetting) * r * r));
            c = c * balance;
            const Colour n = sensor_noise(how, i);
            light[i] = {c.r + n.r * std::sqrt(read * read + shot * shot * std::max(c.r, 0.0f)),
                        c.g + n.g * std::sqrt(read * read + shot * shot * std::max(c.g, 0.0f)),
                        c.b + n.b * std::sqrt(read * read + shot * shot * std::max(c.b, 0.0f))};
        }
}

std::uint8_t byte(float v) {
    return static_cast<std::uint8_t>(clamped(v, 0, 1) * 255 + 0.5f);
}

}  // namespace

Picture develop(const Radiance& radiance, const Development& how, double pixels_per_mm,
                int threads) {
    const int width = radiance.width, height = radiance.height;
    std::vector<Colour> light = wandered(radiance, how, pixels_per_mm, threads);
    light = blurred(light, width, height, how.defocus_px, threads);
    add_lens_and_sensor(light, width, height, how);
    light = blurred(light, width, height, 0.45, threads);  // demosaicing correlates the noise
    for (Colour& c : light) {
        const float grey = luminance(c);
        c = mix(Colour{grey, grey, grey}, c, static_cast<float>(how.saturation));
        const float contrast = static_cast<float>(how.contrast);
        c = {tone(c.r, contrast), tone(c.g, contrast), tone(c.b, contrast)};
    }
    const std::vector<Colour> soft = blurred(light, width, height, 1.0, threads);
    Picture photo{width, height, {}};
    photo.rgb.reserve(light.size() * 3);
    const float sharp = static_cast<float>(how.sharpening);
    for (std::size_t i = 0; i < light.size(); ++i) {
        const Colour c = light[i] * (1 + sharp) + soft[i] * -sharp;
        photo.rgb.insert(photo.rgb.end(), {byte(c.r), byte(c.g), byte(c.b)});
    }
    return photo;
}

}  // namespace loafmark::phantoms
