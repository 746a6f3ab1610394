// The questions that people ask of a cut loaf, answered against the journal's own loaves: how tall,
// how open, how coarse, how even, and where it is different.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "analysis/measures.h"
#include "journal/records.h"

namespace loafmark::insight {

// A question that one measure answers. Its words are relative: "open" is more open than two thirds
// of the journal's loaves, and no praise.
struct Question {
    std::string_view heading;  // "How tall?"
    Measure measure;
    std::array<std::string_view, 3> words;  // of the lower, middle and upper third
};
inline constexpr std::array<Question, 4> questions{{
    {"How tall?", Measure::loaf_height, {"low", "middling", "tall"}},
    {"How open?", Measure::openness, {"close", "medium", "open"}},
    {"How coarse?", Measure::coarseness, {"fine", "medium", "coarse"}},
    {"How even?", Measure::unevenness, {"even", "middling", "uneven"}},
}};
inline constexpr std::string_view where_heading = "Where is it different?";

// How a measure spreads over bakes: their means, in the measure's unit.
struct Usual {
    std::size_t bakes = 0;
    double least = 0;
    std::array<double, 2> thirds{};    // a third of the bakes lies below the first
    std::array<double, 2> quarters{};  // the middle half lies between
    double most = 0;
};
// Fewer bakes than these say nothing of what is usual.
inline constexpr std::size_t bakes_for_usual = 6;
// Over bakes that are not set aside and have the measure; nothing for fewer than bakes_for_usual.
[[nodiscard]] std::optional<Usual> usual_of(const std::vector<journal::BakeEntry>& bakes,
                                            Measure measure);

// Whether a slice counts: read, not poorly, and no end of its loaf.
[[nodiscard]] bool counts(const journal::SliceEntry& slice);

// "open"; "medium to open" where the interval reaches over the border between them; nothing where
// it reaches over both.
[[nodiscard]] std::optional<std::string> place_of(const Estimate& value, const Question& question,
                                                  const Usual& usual);

// "Tall among this journal's 16 bakes: 83.1 mm (82.4 to 83.9)."; without `usual` or without a place
// the reason instead. Nothing where the reading has no such measure.
[[nodiscard]] std::optional<std::string> answer(const journal::Reading& reading,
                                                const Question& question,
                                                const std::optional<Usual>& usual);

// "More open towards the crown (0.31) than at the base (0.22). A dense layer of 4 mm at the base.";
// a difference is told where the intervals part. Nothing where the reading has neither profile nor
// openings to speak of.
[[nodiscard]] std::optional<std::string> where_different(const journal::Reading& reading);

// The same of these bakes: "16 bakes lie between 61.0 and 94.2 mm, half of them between 74.1 and
// 88.0 mm.", and where the newest stands among what is usual in the journal; or that too few were
// measured.
[[nodiscard]] std::string answer(const std::vector<journal::BakeEntry>& bakes,
                                 const Question& question, const std::optional<Usual>& usual);
// In how many slices of these bakes which difference shows.
[[nodiscard]] std::string where_different(const std::vector<journal::BakeEntry>& bakes);

// Openness from base to crown in ten bands, over these bakes' slices that have it and are neither
// poor nor ends; nothing for none.
[[nodiscard]] std::optional<std::array<double, 10>> mean_profile(
    const std::vector<const journal::BakeEntry*>& bakes);
// Of one reading, with intervals.
[[nodiscard]] std::optional<std::array<Estimate, 10>> profile_of(const journal::Reading& reading);

}  // namespace loafmark::insight
