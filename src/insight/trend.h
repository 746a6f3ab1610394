// How a measure goes with water, time, protein, temperature, proof or share of flour, over the
// bakes of a journal.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "analysis/measures.h"
#include "arithmetic/dates.h"
#include "insight/bake_values.h"
#include "insight/proof.h"
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
    proof,              // final proof of the loaf, in minutes; loaves are the units
    proof_at_25c,       // the same brought to 25 degrees, where it was proved at 15 to 32
};

// As commands and documents write it, "hydration"; the reverse gives nothing for another word.
[[nodiscard]] std::string_view name_of(Against against);
[[nodiscard]] std::optional<Against> against_of_name(std::string_view name);
// In plain words, "water", "date", "share of the main flour", "protein".
[[nodiscard]] std::string_view plain_name_of(Against against);
// The unit of x for axes and documents: "%", "days since 1970-01-01", "\u00b0C", "min".
[[nodiscard]] std::string_view unit_of(Against against);

// Proof is applied to the loaf, all else here to the dough.
[[nodiscard]] constexpr bool is_of_loaves(Against against) {
    return against == Against::proof || against == Against::proof_at_25c;
}

// What bakes are grouped by.
enum class Split {
    flour,  // their main flour
    bag,    // main flour and the bag that it came from
};

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
    FlourKinds kinds = {};       // of all flours; used over protein only
    Split split = Split::flour;  // not over protein
    // How bags are called, "bag 3 (lot L77)"; of those left out, "bag 3".
    std::map<journal::BagId, std::string> bag_words = {};
    ProofDoublings doublings = {};  // used over proof at 25 degrees only
};

// One bake. Slices of one bake are no repeats of each other: y is the mean of its slices. Over
// proof, loaves of one dough that were proved for different times are points of their own.
struct TrendPoint {
    journal::BakeId bake;
    Date date;
    std::string title;
    double x = 0;  // in unit_of(against)
    double y = 0;  // in the measure's unit
    int slices = 0;
    std::vector<int> loaves = {};  // over proof: their numbers in the bake, all proved alike
    bool split_dough = false;      // over proof: one of several points of its dough, a block
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
    int points = 0;
    int bakes = 0;   // that the points come from
    int groups = 0;  // flours or bags that take part
    // Fitted heights: one a group and, over proof, one for each dough whose loaves differ in it.
    int intercepts = 0;
    // Over proof: only loaves of doughs that were split are fitted, each dough within itself.
    bool within_doughs = false;
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
// shares, the first as recorded); split by bag, those of one bag of it.
struct TrendGroup {
    journal::FlourId flour;
    std::string name;
    // Split by bag only: those that the main flour came from, mostly one; none: not noted.
    std::vector<journal::BagId> bags = {};
    std::string bag = {};  // in words; empty unless split by bag
    // "emmer", "emmer, bag 3"
    [[nodiscard]] std::string label() const { return bag.empty() ? name : name + ", " + bag; }
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
    // Over proof at 25 degrees: loaves left out because they were proved colder or warmer than is
    // brought to it, and the rule that was used, one a leaven.
    int outside_temperature = 0;
    std::vector<ProofDoubling> doublings;
    std::vector<std::string> notes;  // of the readings, sentences
};

// One slope common to all flours with an intercept for each; when every flour has
// `bakes_for_own_slope` bakes, each flour's fit is its own line, and `common` still stands beside.
// Over protein every grain and grade has a line of its own and there is no common one: a percent of
// protein is not the same protein in another grain.
// Over proof a dough whose loaves were proved for different times is a block with an intercept of
// its own; where such doughs alone give two degrees of freedom, the slope is theirs alone, since
// loaves of one dough scatter less than doughs.
// Bakes set aside are left out, a bake without flours too.
[[nodiscard]] Trend find_trend(const std::vector<journal::BakeEntry>& bakes,
                               const TrendQuestion& question);

// Whether measured_trend() answers the question: over water, date or share, by flour.
[[nodiscard]] bool wants_measured_only(const TrendQuestion& question);
// The same from the little that a whole journal is quickly asked for (Journal::measured(), with
// poor_warnings()). Throws std::invalid_argument for another question.
[[nodiscard]] Trend measured_trend(const journal::MeasuredBakes& bakes,
                                   const TrendQuestion& question);

inline constexpr int bakes_for_own_slope = 5;

}  // namespace loafmark::insight
