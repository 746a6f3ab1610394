// A slope that one bad bake cannot turn: the median of the slopes of all pairs (Theil 1950, Sen
// 1968).
#pragma once

#include <optional>
#include <span>

#include "statistics/interval.h"
#include "statistics/lines.h"

namespace loafmark::statistics {

struct RobustSlope {
    double slope = 0;
    // At least 95 %, from Kendall's exact distribution up to 50 points without ties in x or y, else
    // by Sen's normal approximation; absent where so few points allow none (four and fewer).
    std::optional<Interval> interval;
    int points = 0;
};

// More points than this would take long, with a median of ordinary slopes hardly in danger.
inline constexpr int most_points_for_robust_slope = 1000;

// Pairs of equal x are left out. Nothing for fewer than two different x, or for more points than
// the above. Throws std::invalid_argument for a number that is not finite.
[[nodiscard]] std::optional<RobustSlope> robust_slope(std::span<const Point> points);

}  // namespace loafmark::statistics
