// Three ordinary pipelines, given the true outline and scale: what the analysis must beat.
#pragma once

#include <array>
#include <cstdint>
#include <string_view>
#include <vector>

#include "analysis/picture.h"

namespace loafmark::accuracy {

enum class Yardstick {
    otsu,       // global threshold on grey inside the outline (Otsu 1979)
    equalised,  // contrast equalised in tiles (CLAHE, Zuiderveld 1994), then a local mean threshold
    top_hat,  // black top-hat, Otsu on it, touching cells parted by a watershed of the distance map
};
inline constexpr std::array<Yardstick, 3> yardsticks = {Yardstick::otsu, Yardstick::equalised,
                                                        Yardstick::top_hat};
[[nodiscard]] std::string_view name_of(Yardstick yardstick);

// Cells as numbers from 1, 0 bread. `face`: nonzero inside the true outline. Each pipeline as
// textbooks have it, with parameters in mm that nobody tuned: cells dark, of the sizes of crumb.
[[nodiscard]] std::vector<std::uint16_t> cells_by(Yardstick yardstick, const Picture& picture,
                                                  const std::vector<std::uint8_t>& face,
                                                  double mm_per_pixel);

}  // namespace loafmark::accuracy
