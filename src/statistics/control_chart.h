// A row of single values in order of time, with limits from its own scatter from one to the next:
// the chart of individual values (Shewhart; e.g. NIST/SEMATECH e-Handbook 6.3.2.2).
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace loafmark::statistics {

// Values in a row on one side of the centre that are taken for a shift: by chance once in 128
// starts.
inline constexpr int run_length = 8;
// Fewer values give no limits.
inline constexpr int least_values_for_limits = 6;

struct ControlChart {
    double centre = 0;
    double sd = 0;  // mean absolute step between neighbours / 1.128
    double low = 0;
    double high = 0;                   // centre -+ 3 sd
    std::vector<std::size_t> outside;  // values beyond the limits
    // The run that was going on at the end of the row: how many last values lie on one side.
    int last_run = 0;
    bool last_run_above = false;
    std::vector<std::size_t> in_runs;  // values that are part of a run of run_length and more
    [[nodiscard]] bool drifting() const { return last_run >= run_length; }
};

// Nothing for fewer values than the above or when all are equal. Throws std::invalid_argument for a
// number that is not finite.
[[nodiscard]] std::optional<ControlChart> control_chart(std::span<const double> values);

}  // namespace loafmark::statistics
