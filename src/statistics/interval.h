#pragma once

#include <optional>

namespace loafmark::statistics {

// An interval that holds the estimated quantity with the stated confidence; 95 % unless said.
struct Interval {
    double low = 0;
    double high = 0;
    bool operator==(const Interval&) const = default;
};

// A fitted number. What too few observations cannot give is absent.
struct Coefficient {
    double value = 0;
    std::optional<double> standard_error;  // needs one residual degree of freedom
    std::optional<Interval> interval;      // 95 % by Student's t; needs two
    bool operator==(const Coefficient&) const = default;
};

// Below this many residual degrees of freedom no interval is given: with one, t is 12.7 and the
// residual scatter rests on a single difference.
inline constexpr int least_degrees_for_interval = 2;

// The value that Student's t with `degrees_of_freedom` exceeds in absolute size with probability
// 1 - `confidence`: 2.228 for 10 and 0.95. Throws std::invalid_argument when degrees_of_freedom < 1
// or confidence lies outside (0, 1).
[[nodiscard]] double t_critical(int degrees_of_freedom, double confidence = 0.95);

}  // namespace loafmark::statistics
