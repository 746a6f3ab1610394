#include "region_measures.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>

namespace loafmark::analysis {
namespace {

struct Sums {
    std::int64_t n = 0, x = 0, y = 0, xx = 0, yy = 0, xy = 0;
    int left = 0, right = 0, top = 0, bottom = 0;
};

// Adds the pixels [from, to) of row y.
void add_run(Sums& sums, std::int64_t from, std::int64_t to, int y) {
    const std::int64_t n = to - from;
    const std::int64_t x = n * (from + to - 1) / 2;
    // Sum of squares of from .. to - 1.
    const auto squares = [](std::int64_t m) { return (m - 1) * m * (2 * m - 1) / 6; };
    if (sums.n == 0) {
        sums.left = static_cast<int>(from);
        sums.top = y;
    }
    sums.left = std::min(sums.left, static_cast<int>(from));
    sums.right = std::max(sums.right, static_cast<int>(to));
    sums.bottom = y + 1;
    sums.n += n;
    sums.x += x;
    sums.y += n * y;
    sums.xx += squares(to) - squares(from);
    sums.yy += n * y * y;
    sums.xy += x * y;
}

Region region_of(const Sums& sums) {
    Region region;
    if (sums.n == 0) return region;
    const auto n = static_cast<double>(sums.n);
    const double x = static_cast<double>(sums.x) / n, y = static_cast<double>(sums.y) / n;
    region.pixels = static_cast<int>(sums.n);
    region.centroid = {x, y};
    region.box = {sums.left, sums.top, sums.right - sums.left, sums.bottom - sums.top};
    constexpr double own = 1.0 / 12;  // of a unit square about its middle
    region.xx = static_cast<double>(sums.xx) / n - x * x + own;
    region.yy = static_cast<double>(sums.yy) / n - y * y + own;
    region.xy = static_cast<double>(sums.xy) / n - x * y;
    return region;
}

}  // namespace

std::vector<Region> regions_of(const cv::Mat& labels) {
    std::vector<Sums> sums;
    for (int y = 0; y < labels.rows; ++y) {
        const int* row = labels.ptr<int>(y);
        for (int x = 0; x < labels.cols;) {
            const int label = row[x];
            const int from = x;
            while (x < labels.cols && row[x] == label)
                ++x;
            if (label == 0) continue;
            const auto at = static_cast<std::size_t>(label - 1);
            if (at >= sums.size()) sums.resize(at + 1);
            add_run(sums[at], from, x, y);
        }
    }
    std::vector<Region> regions;
    regions.reserve(sums.size());
    for (const Sums& s : sums)
        regions.push_back(region_of(s));
    return regions;
}

double equivalent_diameter(double area) {
    return std::sqrt(4 * area / std::numbers::pi);
}

}  // namespace loafmark::analysis
