// Random draws for recipes, all from one stream: equal keys, equal draws.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>

#include "phantoms/random.h"

namespace loafmark::phantoms {

inline constexpr double pi = std::numbers::pi;

class Dice {
  public:
    explicit Dice(std::uint32_t key) : stream_(key) {}
    double between(double low, double high) { return low + (high - low) * stream_.next(); }
    // Even in the logarithm.
    double ratio(double low, double high) {
        return low * std::pow(high / low, static_cast<double>(stream_.next()));
    }
    bool chance(double p) { return stream_.next() < p; }
    int pick(int n) {
        return std::min(n - 1, static_cast<int>(stream_.next() * static_cast<float>(n)));
    }
    std::uint32_t seed() { return static_cast<std::uint32_t>(stream_.next() * 16777216.0f) + 1; }
    float f(double low, double high) { return static_cast<float>(between(low, high)); }

  private:
    RandomStream stream_;
};

}  // namespace loafmark::phantoms
