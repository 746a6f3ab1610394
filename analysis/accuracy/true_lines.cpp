#include "true_lines.h"

#include <cmath>
#include <numbers>

namespace loafmark::accuracy {
namespace {

struct Count {
    double bread = 0, changes = 0;
};

}  // namespace

std::optional<double> mean_free_path(const OpenSection& section) {
    const std::vector<std::uint8_t>& open = section.open;
    const int w = section.crumb.width, h = section.crumb.height;
    constexpr double step = 0.5;
    const double spacing = 0.5 / section.mm_per_pixel, reach = std::hypot(w, h) / 2;
    Count count;
    for (int d = 0; d < 8; ++d) {
        const double c = std::cos(d * std::numbers::pi / 8), s = std::sin(d * std::numbers::pi / 8);
        for (double offset = -reach; offset <= reach; offset += spacing) {
            int before = 0;  // 0 outside, 1 bread, 2 cell
            for (double t = -reach; t <= reach; t += step) {
                const double x = w / 2.0 + t * c - offset * s, y = h / 2.0 + t * s + offset * c;
                const int i = static_cast<int>(std::floor(x)), j = static_cast<int>(std::floor(y));
                int now = 0;
                if (i >= 0 && j >= 0 && i + 1 < w && j + 1 < h) {
                    const double fx = x - i, fy = y - j;
                    const auto at = static_cast<std::size_t>(j * w + i);
                    const std::size_t below = at + static_cast<std::size_t>(w);
                    if (section.crumb.labels[(fy < 0.5 ? at : below) + (fx < 0.5 ? 0 : 1)])
                        now = (1 - fy) * ((1 - fx) * open[at] + fx * open[at + 1]) +
                                          fy * ((1 - fx) * open[below] + fx * open[below + 1]) >
                                      0.5
                                  ? 2
                                  : 1;
                }
                if (now == 1) count.bread += step * section.mm_per_pixel;
                if (now != before && now != 0 && before != 0) count.changes += 1;
                before = now;
            }
        }
    }
    if (count.changes <= 0) return std::nullopt;
    return count.bread / (count.changes / 2);
}

}  // namespace loafmark::accuracy
