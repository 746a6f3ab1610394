// How long to prove.
#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <set>
#include <tuple>

#include "arithmetic/quantities.h"
#include "insight/next_advice.h"
#include "insight/proof.h"
#include "insight/recipe.h"
#include "statistics/curve.h"
#include "statistics/repeatability.h"

namespace loafmark::insight {
namespace {

using statistics::Point;

constexpr int times_wanted = 3;    // different ones, before anything is fitted
constexpr double lower_by = 0.05;  // the fall that is told of

// Loaves of one dough that were proved for different times are held against each other, other
// doughs within their recipe.
struct Proved {
    std::vector<std::vector<Point>> blocks;
    std::set<double> times;
    std::set<double> temperatures;
    int bakes = 0;
    [[nodiscard]] double shortest() const { return *times.begin(); }
    [[nodiscard]] double longest() const { return *times.rbegin(); }
};

Proved proved_of(const std::vector<journal::BakeEntry>& bakes, journal::FlourId flour,
                 Measure measure) {
    std::map<std::tuple<Recipe, journal::BakeId>, std::vector<Point>> blocks;
    Proved proved;
    for (const journal::BakeEntry& bake : bakes) {
        const journal::FlourShare* main = main_flour(bake);
        if (!main || main->flour != flour) continue;
        std::map<double, std::vector<BakeMean>> by_minutes;
        for (const journal::LoafEntry& loaf : bake.loaves) {
            const auto proof = proof_of(bake, loaf.loaf);
            const auto mean = loaf_mean(loaf, measure);
            if (!proof || !mean) continue;
            by_minutes[proof->lasted.count()].push_back(*mean);
            if (proof->temperature) proved.temperatures.insert(proof->temperature->degrees());
            for (const ProofStretch& stretch : proof->stretches)
                if (stretch.temperature) proved.temperatures.insert(stretch.temperature->degrees());
        }
        const auto dough = by_minutes.size() > 1 ? bake.bake.id : journal::BakeId{};
        for (const auto& [minutes, loaves] : by_minutes) {
            blocks[{recipe_of(bake), dough}].push_back({minutes, mean_of(loaves)->value});
            proved.times.insert(minutes);
        }
        proved.bakes += by_minutes.empty() ? 0 : 1;
    }
    for (auto& [what, points] : blocks)
        proved.blocks.push_back(std::move(points));
    return proved;
}

std::string time_text(double minutes) {
    return to_text(Minutes(std::round(minutes)));
}

// The place that would teach most: of one time half as long again, else the widest gap's middle.
double in_between(const Proved& proved) {
    double best = proved.shortest() * 1.5;
    double widest = 0;
    for (auto next = std::next(proved.times.begin()); next != proved.times.end(); ++next)
        if (const double before = *std::prev(next); *next - before > widest) {
            widest = *next - before;
            best = std::midpoint(before, *next);
        }
    return best;
}

NextBake too_few(const Proved& proved, const std::string& why) {
    NextBake next;
    next.bakes = proved.bakes;
    next.advice = Advice::not_determined;
    next.value = in_between(proved);
    next.sentence = "not determined: " + why + from_bakes(proved.bakes) + "; a loaf proved for " +
                    time_text(*next.value) +
                    " would teach most, best beside another of the same dough";
    return next;
}

double mean_height(const statistics::Curve& curve, const Proved& proved, double x) {
    double sum = 0;
    double count = 0;
    for (std::size_t g = 0; g < proved.blocks.size(); ++g) {
        const auto size = static_cast<double>(proved.blocks[g].size());
        sum += size * curve.at(g, x).y;
        count += size;
    }
    return sum / count;
}

// Minutes past the peak until the curve is so much lower; its interval is that of the bend.
statistics::Coefficient falls_within(const statistics::Curve& curve, double peak_height) {
    const auto minutes = [&](double bend) { return std::sqrt(lower_by * peak_height / -bend); };
    const statistics::Coefficient& bend = curve.bend();
    return {minutes(bend.value), std::nullopt,
            statistics::Interval{minutes(bend.interval->low), minutes(bend.interval->high)}};
}

NextBake at_the_peak(const Proved& proved, const statistics::Curve& curve,
                     const statistics::Ratio& peak, const std::string& name) {
    NextBake next;
    next.bakes = proved.bakes;
    next.advice = Advice::found;
    next.value = peak.value;
    next.interval = peak.interval;
    next.falls_within = falls_within(curve, mean_height(curve, proved, peak.value));
    const statistics::Interval& fall = *next.falls_within->interval;
    next.sentence = "prove it for " + time_text(peak.value) + ": " + name +
                    " is greatest there, 95 % interval " + time_text(peak.interval->low) + " to " +
                    time_text(peak.interval->high) + "; " + time_text(next.falls_within->value) +
                    " later it is " + fixed_text(100 * lower_by, 0) + " % lower (" +
                    time_text(fall.low) + " to " + time_text(fall.high) + ")" +
                    from_bakes(proved.bakes);
    return next;
}

NextBake a_step(const Proved& proved, bool longer, const std::string& name) {
    NextBake next;
    next.bakes = proved.bakes;
    next.advice = Advice::step;
    next.value = longer ? proved.longest() + minutes_beyond
                        : std::max(proved.shortest() - minutes_beyond, proved.shortest() / 2);
    next.sentence = "prove it for " + time_text(*next.value) + ": " + name + " still " +
                    (longer ? "rises with the proof" : "falls with the proof") +
                    " over all that was tried" + from_bakes(proved.bakes) +
                    "; no further, since nothing beyond was tried";
    return next;
}

NextBake advice_of(const Proved& proved, const std::string& name) {
    if (std::ssize(proved.times) < times_wanted)
        return too_few(proved, "at least three different times of proof are wanted");
    const auto curve = statistics::fit_curve(proved.blocks);
    const auto lines = statistics::fit_parallel_lines(proved.blocks);
    const bool enough = lines && lines->degrees_of_freedom >= statistics::least_degrees_to_judge;
    if (curve && curve->fit.degrees_of_freedom >= statistics::least_degrees_to_judge &&
        curve->bend().interval->high < 0) {
        const auto peak = curve->turning_point();
        if (peak && peak->interval && peak->value >= proved.shortest() &&
            peak->value <= proved.longest())
            return at_the_peak(proved, *curve, *peak, name);
    }
    if (!enough) return too_few(proved, "too little to fit a curve");
    const statistics::Interval& slope = *lines->slope.interval;
    if (slope.low > 0 || slope.high < 0) return a_step(proved, slope.low > 0, name);
    return too_few(
        proved, "these bakes show neither a peak of " + name + " nor that it goes with the proof");
}

std::string temperatures_text(const Proved& proved) {
    if (proved.temperatures.empty()) return "at which temperature it proved was not noted";
    const double low = *proved.temperatures.begin();
    const double high = *proved.temperatures.rbegin();
    return "it proves at " + fixed_text(low, 0) +
           (high - low < 1 ? "" : " to " + fixed_text(high, 0)) +
           " \u00b0C as before; warmer dough is there sooner";
}

}  // namespace

NextBake next_proof(const std::vector<journal::BakeEntry>& bakes, journal::FlourId flour,
                    const Goal& goal) {
    const Proved proved = proved_of(bakes, flour, goal.measure);
    const std::string name(info_of(goal.measure).name);
    NextBake next;
    if (proved.times.empty()) {
        next.sentence = "not determined: no bake of this flour has both " + name +
                        " and the time of its final proof; note it with loafmark bake edit BAKE "
                        "--proof 75min, best for two loaves of one dough";
        return next;
    }
    next = advice_of(proved, name);
    next.assumptions = {"all else stays as it was: flour, water, leaven, oven, loaf size",
                        temperatures_text(proved),
                        "the curve is a parabola, which holds near its peak only"};
    return next;
}

}  // namespace loafmark::insight
