#include "local_looks.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "colour.h"
#include "quantile.h"

namespace loafmark::analysis {
namespace {

constexpr float floor_light = 0.02f;  // keeps the hue of near-black from being noise
// Least standard deviations, in logarithms of linear light: sensor noise, JPEG, uneven paper.
constexpr float hue_sigma = 0.05f;
constexpr float brightness_sigma = 0.06f;
constexpr double least_share = 0.03;  // of the samples, for a look to count
constexpr int rounds = 4;

float unscaled_distance(const LogLight& a, const LogLight& b) {
    // A step of hue is worth two of brightness: shadow moves brightness alone.
    const LogLight d = a - b;
    return 4 * (d[0] * d[0] + d[1] * d[1]) + d[2] * d[2];
}

// Median and robust spread (1.4826 x the median absolute deviation) of each channel.
Look look_of(const std::vector<LogLight>& samples) {
    Look look;
    std::vector<float> values(samples.size());
    for (int k = 0; k < 3; ++k) {
        std::transform(samples.begin(), samples.end(), values.begin(),
                       [k](const LogLight& s) { return s[k]; });
        look.light[k] = median_of(values);
        for (float& v : values)
            v = std::abs(v - look.light[k]);
        look.sigma[static_cast<std::size_t>(k)] =
            std::max(k < 2 ? hue_sigma : brightness_sigma, 1.4826f * median_of(values));
    }
    return look;
}

}  // namespace

cv::Mat log_light_of(const cv::Mat& srgb) {
    std::array<float, 256> log_light{};
    for (std::size_t v = 0; v < log_light.size(); ++v) {
        const auto linear = static_cast<float>(linear_light(static_cast<double>(v) / 255));
        log_light[v] = std::log(linear + floor_light);
    }
    cv::Mat light(srgb.size(), CV_32FC3);
    for (int y = 0; y < srgb.rows; ++y)
        for (int x = 0; x < srgb.cols; ++x) {
            const cv::Vec3b& v = srgb.at<cv::Vec3b>(y, x);
            const float r = log_light[v[0]], g = log_light[v[1]], b = log_light[v[2]];
            light.at<cv::Vec3f>(y, x) = {r - g, b - g, (r + g + b) / 3};
        }
    return light;
}

Looks looks_of(std::vector<LogLight> samples, std::size_t most) {
    if (samples.size() < 12) return {};
    std::sort(samples.begin(), samples.end(), [](const LogLight& a, const LogLight& b) {
        return a[2] != b[2] ? a[2] < b[2] : a[0] < b[0];
    });
    std::vector<LogLight> centres;
    for (std::size_t k = 0; k < most; ++k)
        centres.push_back(samples[(2 * k + 1) * samples.size() / (2 * most)]);
    std::vector<std::vector<LogLight>> members(most);
    for (int round = 0; round < rounds; ++round) {
        for (auto& m : members)
            m.clear();
        for (const LogLight& s : samples) {
            std::size_t nearest = 0;
            for (std::size_t k = 1; k < most; ++k)
                if (unscaled_distance(s, centres[k]) < unscaled_distance(s, centres[nearest]))
                    nearest = k;
            members[nearest].push_back(s);
        }
        for (std::size_t k = 0; k < most; ++k) {
            if (members[k].empty()) continue;
            LogLight sum(0, 0, 0);
            for (const LogLight& s : members[k])
                sum += s;
            centres[k] = sum / static_cast<float>(members[k].size());
        }
    }
    Looks looks;
    for (const auto& m : members)
        if (static_cast<double>(m.size()) >= least_share * static_cast<double>(samples.size()))
            looks.push_back(look_of(m));
    return looks;
}

float squared_distance(const LogLight& light, const Looks& looks, float darker_sigma) {
    float nearest = std::numeric_limits<float>::infinity();
    for (const Look& look : looks) {
        float d2 = 0;
        for (int k = 0; k < 3; ++k) {
            const float d = light[k] - look.light[k];
            float sigma = look.sigma[static_cast<std::size_t>(k)];
            if (k == 2 && d < 0) sigma = std::max(sigma, darker_sigma);
            d2 += d * d / (sigma * sigma);
        }
        nearest = std::min(nearest, d2);
    }
    return nearest;
}

}  // namespace loafmark::analysis
