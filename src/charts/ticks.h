// Where an axis has its ticks and what stands at them.
#pragma once

#include <string>
#include <vector>

namespace loafmark::charts {

struct Tick {
    double value = 0;
    std::string label;
    bool operator==(const Tick&) const = default;
};

// An axis from `low` to `high` with its ticks, in order, all within.
struct TickedRange {
    double low = 0;
    double high = 0;
    std::vector<Tick> ticks;
};

// Round steps of 1, 2 or 5 times a power of ten, at most about `wanted`; the range is widened to
// end at ticks. `low` <= `high`; equal ends are moved apart.
[[nodiscard]] TickedRange number_ticks(double low, double high, int wanted);

// Days since 1970-01-01: days, weeks, months or years, whichever fits. The range gets a margin and
// ends where the data do.
[[nodiscard]] TickedRange date_ticks(double low, double high, int wanted);

// 1, 2 and 5 times powers of ten within [low, high], both positive; on a short range all of 1 to 9.
[[nodiscard]] std::vector<Tick> log_ticks(double low, double high);

// For a logarithmic axis: log_ticks() within a little more than [low, high], both positive; round
// numbers at even steps where the range is short. Equal ends are moved apart.
[[nodiscard]] TickedRange ratio_ticks(double low, double high);

// A number with as few digits as show it, up to six.
[[nodiscard]] std::string short_number(double value);

}  // namespace loafmark::charts
