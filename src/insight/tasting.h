// Tastings: the order of a blind sitting, what was said of each bake, and how well each taster
// repeats himself.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "journal/trial_records.h"
#include "statistics/repeatability.h"

namespace loafmark::insight {

// Orders for tasting so many slices, numbers from 0: each slice stands equally often at each place,
// and follows each other slice equally often (E. J. Williams, Experimental designs balanced for the
// estimation of residual effects of treatments, Australian Journal of Scientific Research A 2
// (1949) 149-168). So many orders for an even number, twice as many for an odd one. Throws
// std::invalid_argument for fewer than two.
[[nodiscard]] std::vector<std::vector<int>> williams_orders(int slices);

// A blind sitting of these bakes: every taster gets all of them, one of them twice; which one, the
// orders and the three-digit codes follow from the seed. Codes differ for every slice of every
// taster, so that nobody hears from another which is which. Throws std::invalid_argument for no
// bake, no taster, or more slices than there are codes.
[[nodiscard]] std::vector<journal::Serving> servings(const std::vector<journal::BakeId>& bakes,
                                                     const std::vector<std::string>& tasters,
                                                     std::uint64_t seed);

// ---- What was said ----

// A taster's own scatter, from bakes served twice in one sitting; all lines together.
struct TasterRepeat {
    std::string taster;
    std::optional<statistics::Repeatability> repeatability;  // absent: nothing was served twice
};

struct LineMean {
    std::string key;  // of the line; "liking"
    double value = 0;
    int tastings = 0;
};

struct BakeTasting {
    std::vector<journal::BakeId> bakes;  // one, or those of a trial's variant
    std::vector<std::string> tasters;
    std::vector<LineMean> lines;        // in the order of journal::tasting_lines, liking last
    std::vector<std::string> good_for;  // free words: "Ada: good for soup"
    std::vector<std::string> when;      // "4 h, paper bag", each once
};

struct TasteDifference {
    std::string key;
    double value = 0;  // this bake less the first, over tasters who had both
    int tasters = 0;
    // What it must exceed to be more than the tasters' own scatter (95 %); absent: not known.
    std::optional<double> limit;
    std::string sentence;
};

struct TasteSummary {
    std::vector<BakeTasting> bakes;                           // one a group, in the order asked for
    std::vector<std::vector<TasteDifference>> against_first;  // one a group after it
    std::vector<TasterRepeat> tasters;                        // by name
    int hidden = 0;  // tastings of sittings that are not over; they are in nothing of this
};

// Over tastings that have scores; those of sittings that are not over count nowhere. `groups`:
// bakes that are summed up together, none empty; the first is what the others are held against.
// Within a group each taster weighs alike.
[[nodiscard]] TasteSummary summary_of(const std::vector<journal::Tasting>& tastings,
                                      const std::vector<std::vector<journal::BakeId>>& groups);

[[nodiscard]] std::string line_words(const std::string& key);  // "close - open"

}  // namespace loafmark::insight
