// How far two single values of the same thing may lie apart: from all repeats pooled.
#pragma once

#include <optional>
#include <vector>

#include "statistics/interval.h"

namespace loafmark::statistics {

// Below this many degrees of freedom no judgement rests on a pooled scatter.
inline constexpr int least_degrees_to_judge = 3;

struct Repeatability {
    double sd = 0;  // pooled: root of summed squares within the sets over their degrees of freedom
    int degrees_of_freedom = 0;
    int sets = 0;  // of two repeats and more
    // 95 %, of the standard deviation, by chi-squared.
    Interval interval;
    // What the absolute difference of two single values exceeds in 5 % of cases when nothing
    // differs: t(0.975, df) sqrt(2) s_r, the repeatability limit of ISO 5725-6 with Student's t in
    // place of 1.96 for the few repeats there are. Nothing below least_degrees_to_judge.
    [[nodiscard]] std::optional<double> limit() const;
    // The same for means of `n` and `m` values.
    [[nodiscard]] std::optional<double> limit(int n, int m) const;
};

// Sets of one value say nothing. Nothing where no set has two. Throws std::invalid_argument for a
// number that is not finite.
[[nodiscard]] std::optional<Repeatability> pooled_repeatability(
    const std::vector<std::vector<double>>& sets);

}  // namespace loafmark::statistics
