// What the pixels of a small neighbourhood look like: a few typical colours, so that one place may
// hold two things (a board and the cloth below it) without a mixture of both passing for either.
#pragma once

#include <array>
#include <vector>

#include <opencv2/core.hpp>

namespace loafmark::analysis {

// log(R/G), log(B/G), log brightness, of linear light: a shadow adds one number to the last and
// nothing to the others.
using LogLight = cv::Vec3f;

// IEC 61966-2-1 to linear light, then the logarithms; CV_32FC3 from CV_8UC3 (R G B).
[[nodiscard]] cv::Mat log_light_of(const cv::Mat& srgb);

struct Look {
    LogLight light;
    std::array<float, 3> sigma{};
};

using Looks = std::vector<Look>;

// The looks of `samples`, at most `most`: clusters of brightness, each mended by Lloyd's rule.
// Equal samples, equal looks. Looks that few samples share are dropped. Empty for fewer than 12
// samples.
[[nodiscard]] Looks looks_of(std::vector<LogLight> samples, std::size_t most = 3);

// Squared distance, in standard deviations, of `light` from the nearest look. What is darker than a
// look may be its shadow and is forgiven up to `darker_sigma`. Infinite without a look.
[[nodiscard]] float squared_distance(const LogLight& light, const Looks& looks, float darker_sigma);

}  // namespace loafmark::analysis
