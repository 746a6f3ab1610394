#include "true_lines.h"

#include <array>
#include <cmath>
#include <numbers>

namespace loafmark::accuracy {
namespace {

struct Direction {
    int right, down;
    double spacing;  // of its lines, pixels
};

constexpr std::array<Direction, 4> directions = {
    {{1, 0, 1}, {0, 1, 1}, {1, 1, 1 / std::numbers::sqrt2}, {-1, 1, 1 / std::numbers::sqrt2}}};

}  // namespace

std::optional<double> mean_free_path(const OpenSection& section) {
    const int w = section.crumb.width, h = section.crumb.height;
    const auto cell_at = [&](std::size_t i) { return section.open[i] ? section.labels[i] : 0; };
    double bread = 0, changes = 0;  // pixels; changes times the spacing of their lines
    for (int y = 0; y < h; ++y)
        for (int x = 0; x < w; ++x) {
            const auto i = static_cast<std::size_t>(y * w + x);
            if (!section.crumb.labels[i]) continue;
            const int cell = cell_at(i);
            bread += cell ? 0 : 1;
            for (const Direction& d : directions) {
                if (x + d.right < 0 || x + d.right >= w || y + d.down >= h) continue;
                const auto k = static_cast<std::size_t>((y + d.down) * w + x + d.right);
                if (!section.crumb.labels[k]) continue;
                const int next = cell_at(k);
                if (cell != next) changes += d.spacing * (cell && next ? 2 : 1);
            }
        }
    if (changes <= 0) return std::nullopt;
    return directions.size() * bread / (changes / 2) * section.mm_per_pixel;
}

}  // namespace loafmark::accuracy
