// Which water to bake with.
#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "insight/compare_words.h"
#include "insight/next_advice.h"
#include "statistics/curve.h"
#include "statistics/line_or_curve.h"

namespace loafmark::insight {
namespace {

using statistics::Interval;
using statistics::Point;

constexpr int waters_wanted = 3;  // different ones, before anything is fitted
constexpr int degrees_wanted = 2;
constexpr std::array<std::string_view, 4> easy = {"stiff", "firm", "supple", "tacky"};

// What was baked of the flour.
struct Tried {
    std::vector<Point> points;   // water in percent, value
    std::map<int, int> waters;   // bakes by half percentage points of water
    std::optional<double> easy;  // the wettest that handled well
    bool handling_noted = false;
    [[nodiscard]] double driest() const { return std::ranges::min(points, {}, &Point::x).x; }
    [[nodiscard]] double wettest() const { return std::ranges::max(points, {}, &Point::x).x; }
    // The wettest water that may be advised, and the driest.
    [[nodiscard]] double limit() const {
        if (!handling_noted) return wettest();
        return std::min(easy.value_or(driest() - step_beyond), wettest() + step_beyond);
    }
    [[nodiscard]] double least() const { return std::min(driest(), limit()) - step_beyond; }
};

Tried tried_of(const std::vector<journal::BakeEntry>& bakes, journal::FlourId flour,
               Measure measure) {
    Tried tried;
    for (const journal::BakeEntry& bake : bakes) {
        const journal::FlourShare* main = main_flour(bake);
        if (!main || main->flour != flour || !bake.hydration) continue;
        const double water = percent(*bake.hydration);
        if (bake.bake.handling) {
            tried.handling_noted = true;
            if (std::ranges::find(easy, *bake.bake.handling) != easy.end())
                tried.easy = std::max(tried.easy.value_or(water), water);
        }
        const auto mean = bake_mean(bake, measure);
        if (!mean) continue;
        tried.points.push_back({water, mean->value});
        ++tried.waters[static_cast<int>(std::lround(2 * water))];
    }
    return tried;
}

// The middle of the widest gap between waters tried; of one water, a step beside it.
double in_between(const Tried& tried) {
    double best = std::min(tried.waters.begin()->first / 2.0 + step_beyond, tried.limit());
    int widest = 0;
    for (auto next = std::next(tried.waters.begin()); next != tried.waters.end(); ++next) {
        const int low = std::prev(next)->first;
        if (next->first - low > widest) {
            widest = next->first - low;
            best = (next->first + low) / 4.0;
        }
    }
    // Of one water whose limit leaves no room above, the step goes below.
    if (tried.waters.contains(static_cast<int>(std::lround(2 * best))))
        best = tried.waters.begin()->first / 2.0 - step_beyond;
    return std::min(best, tried.limit());
}

// Too little to fit anything: what would teach most.
NextBake too_few(const Tried& tried) {
    NextBake next;
    next.bakes = static_cast<int>(tried.points.size());
    const std::string little =
        "too little to fit a curve" + from_bakes(static_cast<int>(tried.points.size()));
    if (std::ssize(tried.waters) < waters_wanted) {
        next.advice = Advice::in_between;
        next.value = in_between(tried);
        next.sentence = "bake it with " + percent_text(*next.value) +
                        " water: at least three different waters are wanted, " + little;
    } else {
        next.advice = Advice::repeat;
        next.value = std::next(tried.waters.begin(), std::ssize(tried.waters) / 2)->first / 2.0;
        next.value = std::min(*next.value, tried.limit());
        next.sentence = "bake " + percent_text(*next.value) +
                        " again: without repeats nobody knows what chance does, " + little;
    }
    return next;
}

std::string limit_text(const Tried& tried) {
    return tried.handling_noted
               ? "; wetter doughs handled worse than tacky, and handling sets the limit"
               : "; no bake notes how the dough handled, so nothing wetter is advised";
}

NextBake proposal(const Tried& tried, double water, const std::optional<Interval>& interval,
                  const std::string& why) {
    const double held = std::clamp(water, tried.least(), tried.limit());
    NextBake next;
    next.bakes = static_cast<int>(tried.points.size());
    next.value = held;
    next.interval = interval;
    next.advice = held == water ? Advice::found : Advice::step;
    next.sentence = "bake it with " + percent_text(held) + " water: " + why;
    if (interval)
        next.sentence += ", 95 % interval " + percent_text(interval->low) + " to " +
                         percent_text(interval->high);
    next.sentence += from_bakes(static_cast<int>(tried.points.size()));
    if (held < water && held <= tried.wettest() + step_beyond - 0.01)
        next.sentence += limit_text(tried);
    else if (held != water)
        next.sentence += "; no further, since nothing beyond was tried";
    return next;
}

NextBake not_determined(const Tried& tried, const std::string& why) {
    NextBake next;
    next.bakes = static_cast<int>(tried.points.size());
    next.advice = Advice::not_determined;
    next.value = in_between(tried);
    next.sentence = "not determined: " + why + from_bakes(static_cast<int>(tried.points.size())) +
                    "; " + percent_text(*next.value) + " water would teach most";
    return next;
}

NextBake towards_most(const Tried& tried, const statistics::ParallelLines& line,
                      const std::string& name) {
    const auto curve = statistics::fit_curve({tried.points});
    if (curve && leaves_out_zero(curve->bend()) && curve->bend().value < 0) {
        const auto peak = curve->turning_point();
        if (peak && peak->interval)
            return proposal(tried, peak->value, peak->interval, name + " is greatest there");
    }
    if (!leaves_out_zero(line.slope))
        return not_determined(
            tried, "these bakes show neither a peak of " + name + " nor that it goes with water");
    const bool up = line.slope.value > 0;
    NextBake next = proposal(
        tried, up ? tried.wettest() + step_beyond : tried.driest() - step_beyond, std::nullopt,
        name + " still " + (up ? "rises with water" : "falls with water") +
            " over all that was tried");
    next.advice = Advice::step;
    return next;
}

// What is still lacking, or too much, at the place that comes nearest.
std::string off_text(const statistics::Nearest& nearest, Measure measure) {
    const auto size = [&](double value) { return measured_text(std::abs(value), measure); };
    const Interval& interval = nearest.off_interval;
    const bool less = nearest.off < 0;
    std::string text = ", still " + size(nearest.off) + (less ? " less" : " more");
    if (interval.low <= 0 && interval.high >= 0) return text + ", not told apart";
    return text + " (95 % interval " + size(less ? interval.high : interval.low) + " to " +
           size(less ? interval.low : interval.high) + ")";
}

// " 66.1 % to 70.4 %", " from 66.1 % on"; open ends are those that the bakes do not give.
std::string ends_text(const statistics::Nearest& nearest) {
    if (nearest.low && nearest.high)
        return ", 95 % interval " + percent_text(*nearest.low) + " to " +
               percent_text(*nearest.high);
    return nearest.low
               ? ", 95 % interval from " + percent_text(*nearest.low) + " on, with no wetter end"
               : ", 95 % interval up to " + percent_text(*nearest.high) + ", with no drier end";
}

NextBake towards(const Tried& tried, const Goal& goal, const Target& target,
                 const std::string& name) {
    const auto line = statistics::fit_line_or_curve(tried.points);
    const std::string wanted = wanted_words(goal, target);
    if (!line || !goes_anywhere(*line))
        return not_determined(tried, "these bakes do not show that " + name + " goes with water");
    const auto nearest =
        statistics::nearest_to(*line, target.value, target.values, tried.least(), tried.limit());
    if (nearest.reached && !nearest.low && !nearest.high)
        return not_determined(tried, "the water for " + wanted + " has no end to its interval");
    NextBake next;
    next.bakes = static_cast<int>(tried.points.size());
    next.value = nearest.x;
    next.sentence = "bake it with " + percent_text(nearest.x) + " water: ";
    if (nearest.reached) {
        next.advice = Advice::found;
        next.sentence += std::string("the fitted ") + (line->bends() ? "curve" : "line") +
                         " gives " + wanted + " there" +
                         (line->bends() ? ", the drier place if there are two" : "") +
                         ends_text(nearest);
    } else {
        next.advice = Advice::step;
        next.sentence += "of what was tried and " + fixed_text(step_beyond, 0) +
                         " points beyond it comes nearest to " + wanted + " there" +
                         off_text(nearest, goal.measure);
        if (nearest.x >= tried.limit() && nearest.x < tried.wettest() + step_beyond)
            next.sentence += limit_text(tried);
    }
    if (nearest.low && nearest.high) next.interval = {*nearest.low, *nearest.high};
    if (!goal.control.empty())
        next.off = statistics::Coefficient{nearest.off, std::nullopt, nearest.off_interval};
    next.sentence += from_bakes(next.bakes);
    return next;
}

}  // namespace

NextBake next_water(const std::vector<journal::BakeEntry>& bakes, journal::FlourId flour,
                    const Goal& goal) {
    const Tried tried = tried_of(bakes, flour, goal.measure);
    const std::string name(info_of(goal.measure).name);
    NextBake next;
    if (tried.points.empty()) {
        next.sentence =
            "not determined: no bake of this flour has both " + name +
            " and a known hydration; bake it first beside the control, with the water that "
            "makes the dough handle alike";
        return next;
    }
    const auto line = statistics::fit_line(tried.points);
    const auto target = target_of(goal);
    if (std::ssize(tried.waters) < waters_wanted || !line ||
        line->degrees_of_freedom < degrees_wanted)
        next = too_few(tried);
    else
        next = target ? towards(tried, goal, *target, name) : towards_most(tried, *line, name);
    next.assumptions = {
        "all else stays as it was: leaven, proof, oven, loaf size",
        "bakes of different days count alike; a warm day may pass for water",
        "it goes at most " + fixed_text(step_beyond, 0) + " points of water beyond what was tried"};
    if (target && target->values > 0)
        next.assumptions.push_back("the control's " + std::to_string(target->values) +
                                   (target->values == 1 ? " bake scatters" : " bakes scatter") +
                                   " as this flour's do");
    return next;
}

}  // namespace loafmark::insight
