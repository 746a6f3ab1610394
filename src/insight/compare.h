// A control against variants: differences with intervals, and whether they can be told from chance.
#pragma once

#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "analysis/measures.h"
#include "insight/bake_values.h"
#include "journal/records.h"
#include "statistics/comparisons.h"

namespace loafmark::insight {

// Bakes of one recipe; the first of a comparison is the control.
struct Contender {
    std::string name;  // its recipe in words; the bake's title where two contenders read alike
    std::vector<journal::BakeEntry> bakes;
};

// What differences are judged by.
enum class Basis {
    days,     // repeats within the comparison, differences within bake days
    repeats,  // repeats within the comparison, all of one day or days of no matter
    journal,  // too few repeats here: the pooled repeats of the whole journal (ISO 5725-6)
    none,     // too few anywhere: no one can tell
};

enum class Verdict { more, less, not_told_apart, cannot_tell };

struct MeasuredDifference {
    std::size_t contender = 1;
    double value = 0;                              // variant less control, in the measure's unit
    std::optional<statistics::Interval> interval;  // 95 %, all variants together (Dunnett)
    double percent = 0;                            // of the control; not finite where it has none
    std::optional<statistics::Interval> percent_interval;  // Fieller's, where it is determined
    std::optional<double> p;                               // adjusted likewise
    Verdict verdict = Verdict::cannot_tell;
    std::string sentence;
    [[nodiscard]] bool percent_known() const { return std::isfinite(percent); }
};

struct MeasureComparison {
    Measure measure = Measure::openness;
    // One a contender: mean over its bakes, and how many had the measure.
    std::vector<std::optional<double>> means;
    std::vector<int> bakes;
    Basis basis = Basis::none;
    std::optional<double> sd;  // of single bakes, that the intervals rest on
    int degrees_of_freedom = 0;
    std::vector<MeasuredDifference>
        differences;       // variants that have the measure, if the control has
    std::string sentence;  // what the judgement rests on, or why there is none
};

struct Comparison {
    std::vector<Contender> contenders;
    std::vector<MeasureComparison> measures;  // those that some contender has
    // What differs from the control besides what the recipes mean to differ in: read a difference
    // with these in mind. Sentences.
    std::vector<std::string> confounded;
    std::vector<std::string> notes;  // of readings: versions mixed, poor ones left out, no scale
};

// The measures that a comparison shows.
[[nodiscard]] std::vector<Measure> compared_measures();

// One measure of contenders, the control first; each has a bake. Where control or variants lack the
// measure there are no differences.
[[nodiscard]] MeasureComparison compare_measure(const std::vector<Contender>& contenders,
                                                Measure measure,
                                                const std::vector<journal::BakeEntry>& journal,
                                                EndSlices ends = EndSlices::left_out);

// `chosen`: the control first, bakes of equal recipe (recipe_of) are repeats. Bakes set aside are
// left out. `journal`: all bakes, for the pooled repeats. Throws std::invalid_argument where fewer
// than two recipes remain, with words for people.
[[nodiscard]] Comparison compare(const std::vector<journal::BakeEntry>& chosen,
                                 const std::vector<journal::BakeEntry>& journal,
                                 EndSlices ends = EndSlices::left_out);

// The same of contenders that are known already (a trial's variants), the control first; each has a
// bake. Throws likewise.
[[nodiscard]] Comparison compare(std::vector<Contender> contenders,
                                 const std::vector<journal::BakeEntry>& journal,
                                 EndSlices ends = EndSlices::left_out);

}  // namespace loafmark::insight
