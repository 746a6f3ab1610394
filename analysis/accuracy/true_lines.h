// Test lines over a true section, step by step.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "analysis/picture.h"

namespace loafmark::accuracy {

struct OpenSection {
    const LabelMap& crumb;                  // not 0: crumb
    const std::vector<std::uint8_t>& open;  // 1 in cells that count, pixel by pixel
    double mm_per_pixel = 0.1;
};

// Length in bread over half the changes from bread to cell; mm. Lines every 22.5 degrees, 0.5 mm
// apart. Between pixels the map is interpolated: a
// staircase would cross lines that graze it.
[[nodiscard]] std::optional<double> mean_free_path(const OpenSection& section);

}  // namespace loafmark::accuracy
