#include "insight/next_bake.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "insight/compare_words.h"
#include "insight/plain_numbers.h"
#include "statistics/curve.h"
#include "statistics/ratio.h"

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
    // The wettest water that may be advised.
    [[nodiscard]] double limit() const {
        return handling_noted ? std::min(easy.value_or(driest()), wettest() + step_beyond)
                              : wettest();
    }
};

Tried tried_of(const std::vector<journal::BakeEntry>& bakes, journal::FlourId flour,
               Measure measure) {
    Tried tried;
    for (const journal::BakeEntry& bake : bakes) {
        const journal::FlourShare* main = main_flour(bake);
        if (bake.bake.set_aside || !main || main->flour != flour || !bake.hydration) continue;
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

std::string water_text(double water) {
    return fixed_text(water, 1) + " %";
}

std::string from(const Tried& tried) {
    const auto n = tried.points.size();
    return " (from " + std::to_string(n) + (n == 1 ? " bake" : " bakes") + ")";
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
    const std::string little = "too little to fit a curve" + from(tried);
    if (std::ssize(tried.waters) < waters_wanted) {
        next.advice = Advice::in_between;
        next.hydration = in_between(tried);
        next.sentence = "bake it with " + water_text(*next.hydration) +
                        " water: at least three different waters are wanted, " + little;
    } else {
        next.advice = Advice::repeat;
        next.hydration = std::next(tried.waters.begin(), std::ssize(tried.waters) / 2)->first / 2.0;
        next.hydration = std::min(*next.hydration, tried.limit());
        next.sentence = "bake " + water_text(*next.hydration) +
                        " again: without repeats nobody knows what chance does, " + little;
    }
    return next;
}

NextBake proposal(const Tried& tried, double water, const std::optional<Interval>& interval,
                  const std::string& why) {
    const double high = std::max(tried.driest(), tried.limit());
    const double held = std::clamp(water, tried.driest() - step_beyond, high);
    NextBake next;
    next.bakes = static_cast<int>(tried.points.size());
    next.hydration = held;
    next.interval = interval;
    next.advice = held == water ? Advice::water : Advice::step;
    next.sentence = "bake it with " + water_text(held) + " water: " + why;
    if (interval)
        next.sentence +=
            ", 95 % interval " + water_text(interval->low) + " to " + water_text(interval->high);
    next.sentence += from(tried);
    if (held < water && held <= tried.wettest() + step_beyond - 0.01)
        next.sentence +=
            tried.handling_noted
                ? "; wetter doughs handled worse than tacky, and handling sets the limit"
                : "; no bake notes how the dough handled, so nothing wetter is advised";
    else if (held != water)
        next.sentence += "; no further, since nothing beyond was tried";
    return next;
}

NextBake not_determined(const Tried& tried, const std::string& why) {
    NextBake next;
    next.bakes = static_cast<int>(tried.points.size());
    next.advice = Advice::not_determined;
    next.hydration = in_between(tried);
    next.sentence = "not determined: " + why + from(tried) + "; " + water_text(*next.hydration) +
                    " water would teach most";
    return next;
}

bool leaves_out_zero(const statistics::Coefficient& number) {
    return number.interval && (number.interval->low > 0 || number.interval->high < 0);
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

NextBake towards_value(const Tried& tried, const Goal& goal, const std::string& name) {
    std::vector<std::vector<double>> columns(2);
    std::vector<double> y;
    double centre = 0;
    for (const Point& point : tried.points)
        centre += point.x / static_cast<double>(tried.points.size());
    for (const Point& point : tried.points) {
        columns[0].push_back(1);
        columns[1].push_back(point.x - centre);
        y.push_back(point.y);
    }
    const auto fit = statistics::least_squares(columns, y);
    const std::string wanted = name + " of " + measured_text(*goal.value, goal.measure);
    const auto curve = statistics::fit_curve({tried.points});
    if (curve && leaves_out_zero(curve->bend()))
        return not_determined(tried, name +
                                         " bends over water, so that no one water need belong to " +
                                         wanted + "; loafmark trend shows the curve");
    if (!fit || !leaves_out_zero(fit->coefficients[1]))
        return not_determined(tried, "these bakes do not show that " + name + " goes with water");
    const double variance = *fit->residual_sd * *fit->residual_sd;
    const auto ratio = statistics::fieller(
        {*goal.value - fit->coefficients[0].value, fit->coefficients[1].value,
         variance * fit->unscaled_covariance[0], variance * fit->unscaled_covariance[3],
         -variance * fit->unscaled_covariance[1]},
        statistics::t_critical(fit->degrees_of_freedom));
    if (!ratio || !ratio->interval)
        return not_determined(tried, "the water for " + wanted + " has no end to its interval");
    return proposal(tried, ratio->value + centre,
                    Interval{ratio->interval->low + centre, ratio->interval->high + centre},
                    "the fitted line gives " + wanted + " there");
}

}  // namespace

NextBake next_bake(const std::vector<journal::BakeEntry>& bakes, journal::FlourId flour,
                   const Goal& goal) {
    const Tried tried = tried_of(bakes, flour, goal.measure);
    const std::string name(info_of(goal.measure).name);
    NextBake next;
    if (tried.points.empty()) {
        next.advice = Advice::not_determined;
        next.sentence =
            "not determined: no bake of this flour has both " + name +
            " and a known hydration; bake it first beside the control, with the water that "
            "makes the dough handle alike";
        return next;
    }
    const auto line = statistics::fit_line(tried.points);
    if (std::ssize(tried.waters) < waters_wanted || !line ||
        line->degrees_of_freedom < degrees_wanted)
        next = too_few(tried);
    else
        next = goal.value ? towards_value(tried, goal, name) : towards_most(tried, *line, name);
    next.assumptions = {
        "all else stays as it was: leaven, proof, oven, loaf size",
        "bakes of different days count alike; a warm day may pass for water",
        "it goes at most " + fixed_text(step_beyond, 0) + " points of water beyond what was tried"};
    return next;
}

}  // namespace loafmark::insight
