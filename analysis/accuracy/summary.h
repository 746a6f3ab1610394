// Many comparisons in a few numbers. What was missed counts against the program everywhere.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "compare.h"

namespace loafmark::accuracy {

struct FigureSummary {
    std::size_t asked = 0;   // slices that the figure was asked of
    std::size_t missed = 0;  // of these, without a value
    // Of the errors' sizes, of scores and distances their values; a miss counts as the worst of
    // all. None: asked of nothing, or half or more were missed.
    std::optional<double> median;
    std::optional<double> worst;  // over those that have a value
    std::size_t intervals = 0;    // asked with an interval; a missing one counts as a miss
    std::size_t covered = 0;
    std::optional<double> median_half_width;  // over those that have one
};

using Summary = std::array<FigureSummary, figure_count>;

[[nodiscard]] Summary summarised(const std::vector<PhotoComparison>& photos);
// Of one of the ordinary pipelines.
[[nodiscard]] Summary summarised(const std::vector<PhotoComparison>& photos, std::size_t yardstick);

// Even count: the mean of the two in the middle. At least one value.
[[nodiscard]] double median(std::vector<double> values);

}  // namespace loafmark::accuracy
