// The final proof of a loaf, and what its time comes to at another temperature.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "journal/records.h"
#include "statistics/interval.h"

namespace loafmark::insight {

// A part of a proof at one temperature, such as the hours in a refrigerator.
struct ProofStretch {
    Minutes lasted;
    std::optional<Celsius> temperature;
    bool operator==(const ProofStretch&) const = default;
};

struct Proof {
    Minutes lasted;
    std::optional<Celsius> temperature;
    // Only where the steps were of different temperatures; then there is no `temperature`.
    std::vector<ProofStretch> stretches = {};
    [[nodiscard]] bool temperature_known() const;
    bool operator==(const Proof&) const = default;
};

// The loaf's own, where it was proved otherwise than its dough, else the bake's steps of that name
// together; one whose time was not noted lasted until the next step began. The temperature is the
// loaf's, else the steps', else the room's of that day; of steps of different temperatures each has
// its own, and a loaf that has only a time of its own none.
[[nodiscard]] std::optional<Proof> proof_of(const journal::BakeEntry& bake,
                                            const journal::Loaf& loaf);

// ---- At a common temperature ----

// What proofs are brought to, and between which temperatures that is done at all: outside, dough
// does not rise by one rule.
inline constexpr Celsius common_proof_temperature{25};
inline constexpr Celsius coldest_weighted_proof{15};
inline constexpr Celsius warmest_weighted_proof{32};

// By how much warmer dough proves in half the time.
struct ProofDoubling {
    std::string leaven;                            // of journal::leaven_words, or "" for not noted
    double degrees = 9;                            // Celsius, above 0
    std::optional<statistics::Interval> interval;  // 95 %; only where it is learnt
    int proofs = 0;                                // that it was learnt from; 0: common practice
    int degrees_of_freedom = 0;
    std::string sentence;  // the factor and where it comes from
};
using ProofDoublings = std::map<std::string, ProofDoubling, std::less<>>;  // by leaven

// One a leaven of these bakes. Learnt where loaves of one formula's version that a finger's dent
// found equally proved ("slowly", "stays") were proved at different temperatures: the logarithm of
// their minutes goes down a straight line with temperature, one slope, an intercept for each
// formula and dent; used where its interval leaves out zero, with three degrees of freedom. Else
// common practice (no source): a doubling in 8 to 10 degrees, of which the middle is taken.
[[nodiscard]] ProofDoublings proof_doublings(const std::vector<journal::BakeEntry>& bakes);
// Of a leaven that is not among them: common practice.
[[nodiscard]] ProofDoubling doubling_for(const ProofDoublings& doublings, std::string_view leaven);
[[nodiscard]] std::string leaven_of(const journal::BakeEntry& bake);  // "" where not noted

// Minutes x 2^((temperature - common) / degrees); nothing where the temperature is outside what is
// weighted. `degrees` above 0.
[[nodiscard]] std::optional<Minutes> at_common_temperature(Minutes lasted, Celsius temperature,
                                                           double degrees);
// The same, stretch by stretch; nothing either where a temperature is not known.
[[nodiscard]] std::optional<Minutes> at_common_temperature(const Proof& proof, double degrees);

}  // namespace loafmark::insight
