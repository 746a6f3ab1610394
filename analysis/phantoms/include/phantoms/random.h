// Random numbers and noise by hashing: the value depends on seed and place alone, never on the
// order of evaluation, so that a picture does not depend on the number of threads.
#pragma once

#include <cstdint>

#include "phantoms/vec3.h"

namespace loafmark::phantoms {

// A bijective mixer of 32-bit words; multipliers from Wellons' search for low-bias hashes
// ("Prospecting for hash functions", 2018).
LOAFMARK_DEVICE inline std::uint32_t hash32(std::uint32_t x) {
    x ^= x >> 16;
    x *= 0x7feb352dU;
    x ^= x >> 15;
    x *= 0x846ca68bU;
    x ^= x >> 16;
    return x;
}
LOAFMARK_DEVICE inline std::uint32_t hash32(std::uint32_t a, std::uint32_t b) {
    return hash32(a ^ (hash32(b) + 0x9e3779b9U + (a << 6)));
}
LOAFMARK_DEVICE inline std::uint32_t lattice_hash(int x, int y, int z, std::uint32_t seed) {
    return hash32(static_cast<std::uint32_t>(x) * 73856093U ^
                  static_cast<std::uint32_t>(y) * 19349663U ^
                  static_cast<std::uint32_t>(z) * 83492791U ^ seed);
}
// In [0, 1).
LOAFMARK_DEVICE inline float unit_float(std::uint32_t bits) {
    return static_cast<float>(bits >> 8) * (1.0f / 16777216.0f);
}

// A reproducible sequence of uniform numbers; equal keys give equal sequences.
class RandomStream {
  public:
    LOAFMARK_DEVICE explicit RandomStream(std::uint32_t key) : key_(hash32(key)) {}
    // The next number in [0, 1).
    LOAFMARK_DEVICE float next() { return unit_float(hash32(key_ + 0x9e3779b9U * ++count_)); }
    LOAFMARK_DEVICE float between(float low, float high) { return low + (high - low) * next(); }

  private:
    std::uint32_t key_;
    std::uint32_t count_ = 0;
};

// Smooth noise in [-1, 1] on a lattice of spacing 1.
LOAFMARK_DEVICE inline float value_noise(Vec3 p, std::uint32_t seed) {
    const int x = floor_int(p.x), y = floor_int(p.y), z = floor_int(p.z);
    float fx = p.x - static_cast<float>(x), fy = p.y - static_cast<float>(y),
          fz = p.z - static_cast<float>(z);
    fx = fx * fx * (3 - 2 * fx);
    fy = fy * fy * (3 - 2 * fy);
    fz = fz * fz * (3 - 2 * fz);
    float sum = 0;
    for (int c = 0; c < 8; ++c) {
        const int dx = c & 1, dy = (c >> 1) & 1, dz = c >> 2;
        const float w = (dx ? fx : 1 - fx) * (dy ? fy : 1 - fy) * (dz ? fz : 1 - fz);
        sum += w * unit_float(lattice_hash(x + dx, y + dy, z + dz, seed));
    }
    return 2 * sum - 1;
}

// Three independent noises at once, each in [-1, 1].
LOAFMARK_DEVICE inline Vec3 vector_noise(Vec3 p, std::uint32_t seed) {
    const int x = floor_int(p.x), y = floor_int(p.y), z = floor_int(p.z);
    float fx = p.x - static_cast<float>(x), fy = p.y - static_cast<float>(y),
          fz = p.z - static_cast<float>(z);
    fx = fx * fx * (3 - 2 * fx);
    fy = fy * fy * (3 - 2 * fy);
    fz = fz * fz * (3 - 2 * fz);
    Vec3 sum{};
    for (int c = 0; c < 8; ++c) {
        const int dx = c & 1, dy = (c >> 1) & 1, dz = c >> 2;
        const float w = (dx ? fx : 1 - fx) * (dy ? fy : 1 - fy) * (dz ? fz : 1 - fz);
        const std::uint32_t h = lattice_hash(x + dx, y + dy, z + dz, seed);
        const Vec3 v{static_cast<float>(h & 1023U), static_cast<float>((h >> 10) & 1023U),
                     static_cast<float>((h >> 20) & 1023U)};
        sum = sum + v * w;
    }
    return sum * (2 / 1023.0f) - Vec3{1, 1, 1};
}

}  // namespace loafmark::phantoms
