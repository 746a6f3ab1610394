// How a measure goes with water, time, protein, temperature or share of flour, over the bakes of a
// journal.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "analysis/measures.h"
#include "arithmetic/dates.h"
#include "insight/bake_values.h"
#include "journal/records.h"
#include "statistics/lines.h"
#include "statistics/ratio.h"
#include "statistics/robust_slope.h"

namespace loafmark::insight {

// What a measure is held against.
enum class Against {
    hydration,          // as mixed, in percent
    date,               // of the bake day, in days since 1970-01-01
    share,              // of the bake's main flour in all its flour, in percent
    protein,            // of all its flour, in percent as stated; only bakes of one grain and grade
    dough_temperature,  // in degrees Celsius
    room_temperature,   // of the bake day, in degrees Celsius
};

// As commands and documents write it, "hydration"; the reverse gives nothing for another word.
[[nodiscard]] std::string_view name_of(Against against);
[[nodiscard]] std::optional<Against> against_of_name(std::string_view name);
// In plain words, "water", "date", "share of the main flour", "protein".
[[nodiscard]] std::string_view plain_name_of(Against against);
// The unit of x for axes and documents: "%", "days since 1970-01-01", "\u00b0C".
[[nodiscard]] std::string_view unit_of(Against against);

// What stands on a flour's pack besides its name; needed for trends over protein.
struct FlourKind {
    std::string name;  // "white wheat"; what bakes over protein are grouped by
    std::optional<journal::ProteinBasis> basis;
    bool operator==(const FlourKind&) const = default;
};
using FlourKinds = std::map<journal::FlourId, FlourKind>;
[[nodiscard]] FlourKinds kinds_of(const std::vector<journal::Flour>& flours);

struct TrendQuestion {
    Measure measure = Measure::openness;
    Against against = Against::hydration;
    std::optional<journal::FlourId> flour = std::nullopt;  // only bakes whose main flour it is
    EndSlices ends = EndSlices::left_out;
    FlourKinds kinds = {};  // of all flours; used over protein only
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
    // Of a line of its own: the median slope, which one bad bake cannot turn.
    std::optional<statistics::RobustSlope> robust;
};

// A parabola in place of the line, given where the bend's interval leaves out zero.
struct TrendBend {
    statistics::Coefficient bend;  // the measure's unit per squared unit of x; below zero: a peak
    statistics::Ratio turning_point;  // the x of peak or dip, with Fieller's interval if determined
    int degrees_of_freedom = 0;
};

// The bakes of one main flour, over protein of one grain and grade (its largest share; of equal
// shares, the first as recorded).
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
    std::optional<TrendFit> common;  // over all flours; never over protein with several kinds
    std::optional<TrendBend> bend;   // one for all flours, an intercept each
    std::string why_none;            // why there is no common fit; empty when there is one
    std::string sentence;            // the finding in plain words, always there
    int set_aside = 0;               // bakes left out because they were set aside
    int end_slices = 0;              // slices left out because they are ends
    int without_value = 0;           // bakes left out for want of the measure or of x
    int poor_readings = 0;           // slices left out because their reading is poor
};

// One slope common to all flours with an intercept for each; when every flour has
// `bakes_for_own_slope` bakes, each flour's fit is its own line, and `common` still stands beside.
// Over protein every grain and grade has a line of its own and there is no common one: a percent of
// protein is not the same protein in another grain.
// Bakes set aside are left out, a bake without flours too.
[[nodiscard]] Trend find_trend(const std::vector<journal::BakeEntry>& bakes,
                               const TrendQuestion& question);

inline constexpr int bakes_for_own_slope = 5;

}  // namespace loafmark::insight
