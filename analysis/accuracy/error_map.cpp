#include "error_map.h"

#include <array>

namespace loafmark::accuracy {
namespace {

using Colour = std::array<double, 3>;
constexpr Colour both{0, 114, 178}, missed{213, 94, 0}, extra{240, 228, 66}, wall{0, 0, 0};
constexpr double strength = 0.55;  // of a colour over the photo's grey

// Whether pixel i and the one to its right or below are different cells.
bool is_wall(const std::vector<std::uint16_t>& cells, std::size_t i, std::size_t width) {
    const auto differs = [&](std::size_t k) {
        return k < cells.size() && cells[i] && cells[k] && cells[i] != cells[k];
    };
    return ((i + 1) % width != 0 && differs(i + 1)) || differs(i + width);
}

}  // namespace

Picture error_map(const analysis::SliceMaps& maps, const std::vector<std::uint16_t>& truth,
                  const std::vector<std::uint16_t>& found) {
    Picture map{maps.cells.width, maps.cells.height, {}};
    const auto width = static_cast<std::size_t>(map.width);
    map.rgb.reserve(3 * truth.size());
    for (std::size_t i = 0; i < truth.size(); ++i) {
        const std::uint8_t* rgb = &maps.photo.rgb[3 * i];
        const double grey = 0.299 * rgb[0] + 0.587 * rgb[1] + 0.114 * rgb[2];
        const Colour* colour = nullptr;
        if (maps.crumb.labels[i]) {
            if (truth[i] && found[i])
                colour = is_wall(truth, i, width) != is_wall(found, i, width) ? &wall : &both;
            else if (truth[i])
                colour = &missed;
            else if (found[i])
                colour = &extra;
        }
        for (std::size_t k = 0; k < 3; ++k)
            map.rgb.push_back(static_cast<std::uint8_t>(
                colour ? (1 - strength) * grey + strength * (*colour)[k] : grey));
    }
    return map;
}

}  // namespace loafmark::accuracy
