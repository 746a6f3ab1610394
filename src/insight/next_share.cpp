// How much of a weaker flour a blend takes.
#include <algorithm>
#include <cmath>
#include <set>
#include <stdexcept>

#include "insight/next_advice.h"
#include "statistics/line_or_curve.h"
#include "statistics/repeatability.h"

namespace loafmark::insight {
namespace {

using statistics::Point;

constexpr int shares_wanted = 3;     // different ones, none among them
constexpr double all_of_it = 99.5;   // percent: that no third flour is in it
constexpr double share_to_try = 20;  // percent, where there is no blend yet

// x: percent of the flour in blends with the other one only.
struct Blends {
    std::vector<Point> points;
    std::set<int> shares;  // whole percents
};

Blends blends_of(const std::vector<journal::BakeEntry>& bakes, journal::FlourId flour,
                 journal::FlourId other, Measure measure) {
    Blends blends;
    for (const journal::BakeEntry& bake : bakes) {
        double own = 0;
        double both = 0;
        for (const journal::FlourShare& share : bake.flours) {
            if (share.flour == flour) own += percent(share.share);
            if (share.flour == flour || share.flour == other) both += percent(share.share);
        }
        const auto mean = bake_mean(bake, measure);
        if (!mean || both < all_of_it) continue;
        blends.points.push_back({own, mean->value});
        blends.shares.insert(static_cast<int>(std::lround(own)));
    }
    return blends;
}

double largest(const Blends& blends) {
    return std::ranges::max(blends.points, {}, &Point::x).x;
}

NextBake wanted_first(const Blends& blends, const std::string& why) {
    NextBake next;
    next.bakes = static_cast<int>(blends.points.size());
    // The widest gap's middle, the control at nothing of it.
    double best = share_to_try;
    int widest = 0;
    std::set<int> shares = blends.shares;
    shares.insert(0);
    for (auto at = std::next(shares.begin()); at != shares.end(); ++at)
        if (const int before = *std::prev(at); *at - before > widest) {
            widest = *at - before;
            best = (*at + before) / 2.0;
        }
    next.value = best;
    next.sentence = "not determined: " + why + from_bakes(next.bakes) + "; " + percent_text(best) +
                    " of it would teach most";
    return next;
}

NextBake advice_of(const Blends& blends, const std::string& other, const std::string& name) {
    NextBake next;
    next.bakes = static_cast<int>(blends.points.size());
    if (!blends.shares.contains(0)) {
        next.sentence = "not determined: no bake of " + other + " alone has " + name +
                        "; bake that first, every share is held against it";
        return next;
    }
    if (std::ssize(blends.shares) < shares_wanted)
        return wanted_first(blends, "at least three different shares are wanted, none among them");
    const auto line = statistics::fit_line_or_curve(blends.points);
    if (!line || line->fit.degrees_of_freedom < statistics::least_degrees_to_judge)
        return wanted_first(blends, "too little to fit a line");
    const double most = largest(blends);
    const double kept = statistics::keeps_up_to(*line, share_kept, 0, most);
    const int smallest = *std::next(blends.shares.begin());
    if (kept < smallest)
        return wanted_first(blends, "even the smallest share tried, " + percent_text(smallest) +
                                        ", is not sure to keep it");
    next.advice = kept >= most ? Advice::step : Advice::found;
    next.value = kept;
    next.sentence = "up to " + percent_text(kept) + " of it: " + name + " keeps at least " +
                    fixed_text(100 * share_kept, 0) + " % of that of " + other +
                    " alone (95 % sure, one-sided)" + from_bakes(next.bakes);
    if (kept >= most) next.sentence += "; more was not tried";
    return next;
}

}  // namespace

NextBake next_share(const std::vector<journal::BakeEntry>& bakes, journal::FlourId flour,
                    const Goal& goal) {
    const journal::FlourShare* other = main_flour(goal.control.front());
    if (!other || other->flour == flour)
        throw std::invalid_argument(
            "the control is of the same flour; name one of the flour that it is blended with");
    NextBake next = advice_of(blends_of(bakes, flour, other->flour, goal.measure), other->name,
                              std::string(info_of(goal.measure).name));
    next.assumptions = {"each share is baked with the water that it had so far",
                        "over shares the measure goes along a straight line, or a parabola where "
                        "the bakes bend beyond chance",
                        "bakes of different days count alike"};
    return next;
}

}  // namespace loafmark::insight
