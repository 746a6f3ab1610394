// How a measure goes with water, time or share of flour, over the bakes of a journal.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "analysis/measures.h"
#include "arithmetic/dates.h"
#include "insight/bake_values.h"
#include "journal/records.h"
#include "statistics/lines.h"

namespace loafmark::insight {

// What a measure is held against.
enum class Against {
    hydration,  // as mixed, in percent
    date,       // of the bake day, in days since 1970-01-01
    share,      // of the bake's main flour in all its flour, in percent
};

// As commands and documents write it, "hydration"; the reverse gives nothing for another word.
[[nodiscard]] std::string_view name_of(Against against);
[[nodiscard]] std::optional<Against> against_of_name(std::string_view name);
// In plain words, "water", "date", "share of the main flour".
[[nodiscard]] std::string_view plain_name_of(Against against);
// The unit of x for axes and documents: "%", "days since 1970-01-01".
[[nodiscard]] std::string_view unit_of(Against against);

struct TrendQuestion {
    Measure measure = Measure::openness;
    Against against = Against::hydration;
    std::optional<journal::FlourId> flour = std::nullopt;  // only bakes whose main flour it is
    EndSlices ends = EndSlices::left_out;
};

// One bake. Slices of one bake are no repeats of each other: y is the mean of its slices.
struct TrendPoint {
    journal::BakeId bake;
    Date date;
    std::string title;
    double x = 0;  // in unit_of(against)
    double y = 0;  // in the measure's unit
    int slices = 0;
};

enum class TrendModel {
    line,          // one flour: an ordinary straight line
    common_slope,  // one slope for all flours, an intercept for each
    own_slope,     // this flour's bakes alone
};
[[nodiscard]] std::string_view name_of(TrendModel model);  // "line", "common slope", "own slope"

// A fitted slope, in the measure's unit per unit of x: for hydration, per percentage point of
// water.
struct TrendFit {
    TrendModel model = TrendModel::line;
    statistics::Coefficient slope;
    std::optional<double> residual_sd;
    int degrees_of_freedom = 0;
    int bakes = 0;
    int flours = 0;
    std::string why_no_interval;  // empty when the slope has one
};

// The bakes of one main flour (its largest share; of equal shares, the first as recorded).
struct TrendGroup {
    journal::FlourId flour;
    std::string name;
    std::vector<TrendPoint> points;                    // by x, then date
    std::optional<TrendFit> fit;                       // the slope that holds for this flour
    std::optional<statistics::Coefficient> intercept;  // of that fit, at x = 0
    std::vector<statistics::FittedPoint> line;         // over this flour's own x; for charts
    std::string why_none;  // why there is no fit; empty when there is one
};

struct Trend {
    TrendQuestion question;
    std::vector<TrendGroup> groups;  // most bakes first, then by name
    std::optional<TrendFit> common;  // over all flours
    std::string why_none;            // why there is no common fit; empty when there is one
    std::string sentence;            // the finding in plain words, always there
    int set_aside = 0;               // bakes left out because they were set aside
    int end_slices = 0;              // slices left out because they are ends
    int without_value = 0;           // bakes left out for want of the measure or of x
};

// One slope common to all flours with an intercept for each; when every flour has
// `bakes_for_own_slope` bakes, each flour's fit is its own line, and `common` still stands beside.
// Bakes set aside are left out, a bake without flours too.
[[nodiscard]] Trend find_trend(const std::vector<journal::BakeEntry>& bakes,
                               const TrendQuestion& question);

inline constexpr int bakes_for_own_slope = 5;

}  // namespace loafmark::insight
