// Differences between groups, several at a time: intervals that all hold together with 95 %
// confidence, and p-values adjusted likewise.
#pragma once

#include <cstddef>
#include <vector>

#include "statistics/group_means.h"
#include "statistics/interval.h"

namespace loafmark::statistics {

enum class Adjustment {
    dunnett,       // exact for the design
    sidak,         // correlations of no product form: Sidak's bound, a little too wide
    tukey_kramer,  // exact for equal sizes, else a little too wide (Hayter 1984)
};

struct Difference {
    std::size_t group = 0;  // this group's mean
    std::size_t from = 0;   // less this one's
    double value = 0;
    double standard_error = 0;
    double p = 1;               // adjusted
    Interval interval;          // simultaneous
    double critical_value = 0;  // half the interval over the standard error
    Adjustment adjustment = Adjustment::dunnett;
    bool operator==(const Difference&) const = default;
};

// Every group but the control against it, in order (Dunnett 1955; unequal sizes Dunnett 1964).
// Throws std::invalid_argument when `control` is no group or the groups have no scatter at all.
[[nodiscard]] std::vector<Difference> against_control(const GroupMeans& groups,
                                                      std::size_t control);

// Every pair, the later group less the earlier (Tukey 1953, Kramer 1956). Throws likewise.
[[nodiscard]] std::vector<Difference> all_pairs(const GroupMeans& groups);

}  // namespace loafmark::statistics
