// Chance that is the same on every machine: std::shuffle and the distributions are not.
#pragma once

#include <cstdint>
#include <random>
#include <utility>
#include <vector>

namespace loafmark::insight {

class Chance {
  public:
    explicit Chance(std::uint64_t seed) : engine_(seed) {}

    // Evenly from 0 to below - 1; `below` is at least 1. Numbers of the last, uneven round are
    // drawn again.
    std::uint64_t below(std::uint64_t below) {
        const std::uint64_t rounds = UINT64_MAX / below;
        std::uint64_t drawn = engine_();
        while (drawn >= rounds * below)
            drawn = engine_();
        return drawn % below;
    }

    // Fisher and Yates.
    template <class T>
    void shuffle(std::vector<T>& things) {
        for (std::size_t i = things.size(); i > 1; --i)
            std::swap(things[i - 1], things[static_cast<std::size_t>(below(i))]);
    }

  private:
    std::mt19937_64 engine_;
};

}  // namespace loafmark::insight
