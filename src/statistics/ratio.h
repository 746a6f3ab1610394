#pragma once

#include <optional>

#include "statistics/interval.h"

namespace loafmark::statistics {

// Two estimates with their variances and covariance.
struct RatioParts {
    double numerator = 0;
    double denominator = 0;
    double numerator_variance = 0;
    double denominator_variance = 0;
    double covariance = 0;
};

struct Ratio {
    double value = 0;
    // Absent when the denominator cannot be told from zero: then the set is no interval, and the
    // ratio is not determined.
    std::optional<Interval> interval;
    double g = 0;  // (critical value x error of the denominator / denominator) squared; 1 and
                   // above: not determined
};

// Fieller's interval (1954) at `critical_value` standard errors. Nothing when the denominator is
// zero. Throws std::invalid_argument for a number that is not finite, a negative variance or a
// critical value that is not positive.
[[nodiscard]] std::optional<Ratio> fieller(const RatioParts& parts, double critical_value);

}  // namespace loafmark::statistics
