// Whether to give the dough a long rest.
#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <tuple>

#include "insight/compare.h"
#include "insight/compare_words.h"
#include "insight/next_advice.h"
#include "insight/proof.h"
#include "insight/recipe.h"

namespace loafmark::insight {
namespace {

constexpr std::array<std::string_view, 3> steps_of_rest = {"rest", "bulk fermentation",
                                                           "final proof"};

// Nothing where no step of the bake says how long it took.
std::optional<bool> rested_long(const journal::BakeEntry& bake) {
    bool noted = false;
    double longest = 0;
    for (const journal::BakeStep& step : bake.bake.steps) {
        if (!step.lasted || std::ranges::find(steps_of_rest, step.step) == steps_of_rest.end())
            continue;
        noted = true;
        longest = std::max(longest, step.lasted->count());
    }
    for (const journal::LoafEntry& loaf : bake.loaves)
        if (const auto proof = proof_of(bake, loaf.loaf)) {
            noted = true;
            longest = std::max(longest, proof->lasted.count());
        }
    if (!noted) return std::nullopt;
    return longest >= 60 * long_rest.count();
}

// A long rest may want another formula (less yeast): flour and water are what must be alike.
using FlourAndWater = std::tuple<std::vector<std::pair<std::int64_t, int>>, int>;

struct Sides {
    std::vector<journal::BakeEntry> without;
    std::vector<journal::BakeEntry> with;
};

std::map<FlourAndWater, Sides> sides_of(const std::vector<journal::BakeEntry>& bakes,
                                        journal::FlourId flour, Measure measure) {
    std::map<FlourAndWater, Sides> all;
    for (const journal::BakeEntry& bake : bakes) {
        const journal::FlourShare* main = main_flour(bake);
        if (!main || main->flour != flour || !bake_mean(bake, measure)) continue;
        const auto rested = rested_long(bake);
        if (!rested) continue;
        const Recipe recipe = recipe_of(bake);
        Sides& sides = all[{recipe.flour_shares, recipe.water_halves}];
        (*rested ? sides.with : sides.without).push_back(bake);
    }
    return all;
}

std::string hours() {
    return fixed_text(long_rest.count(), 0) + " hours";
}

NextBake one_side_missing(const std::map<FlourAndWater, Sides>& all, const std::string& name) {
    NextBake next;
    // The recipe baked most: one more of it tells.
    const Sides* most = nullptr;
    for (const auto& [what, sides] : all) {
        const auto size = [](const Sides& s) { return s.with.size() + s.without.size(); };
        if (!most || size(sides) > size(*most)) most = &sides;
    }
    if (!most) {
        next.sentence = "not determined: no bake of this flour has both " + name +
                        " and how long it rested (loafmark bake add --step bulk=3h)";
        return next;
    }
    const bool had = !most->with.empty();
    next.bakes = static_cast<int>(most->with.size() + most->without.size());
    next.sentence =
        "not determined: no recipe of this flour was baked both with and without a "
        "rest of " +
        hours() + from_bakes(next.bakes) + "; to learn it, bake " +
        recipe_words((had ? most->with : most->without).front()) +
        (had ? " once more without one" : " once more with one, overnight in the cold");
    return next;
}

// Whether the rest brings the loaf nearer to what is wanted.
bool nearer(const Goal& goal, double without, double did) {
    const auto target = target_of(goal);
    if (!target) return did > 0;
    return std::abs(without + did - target->value) < std::abs(without - target->value);
}

}  // namespace

NextBake next_rest(const std::vector<journal::BakeEntry>& bakes, journal::FlourId flour,
                   const Goal& goal) {
    const std::string name(info_of(goal.measure).name);
    const auto all = sides_of(bakes, flour, goal.measure);
    const Sides* both = nullptr;
    for (const auto& [what, sides] : all)
        if (!sides.with.empty() && !sides.without.empty() &&
            (!both ||
             sides.with.size() + sides.without.size() > both->with.size() + both->without.size()))
            both = &sides;
    NextBake next;
    if (!both) return one_side_missing(all, name);
    const std::string recipe = recipe_words(both->without.front());
    const MeasureComparison judged =
        compare_measure({{"without", both->without}, {"with a rest of " + hours(), both->with}},
                        goal.measure, bakes);
    const MeasuredDifference& d = judged.differences.front();
    next.bakes = static_cast<int>(both->with.size() + both->without.size());
    next.rest_did = statistics::Coefficient{d.value, std::nullopt, d.interval};
    next.sentence = recipe + ", " + name + " " + d.sentence;
    if (d.verdict == Verdict::more || d.verdict == Verdict::less) {
        next.advice = Advice::found;
        next.take_rest = nearer(goal, *judged.means.front(), d.value);
        next.sentence =
            (*next.take_rest ? "take a long rest: " : "take no long rest: ") + next.sentence;
    } else {
        next.advice = d.verdict == Verdict::cannot_tell ? Advice::not_determined : Advice::repeat;
        next.sentence = "not determined: " + next.sentence + "; one more of each tells more";
    }
    next.sentence += from_bakes(next.bakes) + "; " + judged.sentence;
    next.assumptions = {"the control is the same flour and water without a long rest",
                        "a long rest is one step of rest, bulk fermentation or final proof of " +
                            hours() + " and more, in the cold or not",
                        "leaven may differ with it, as a long rest wants; flour and water do not"};
    return next;
}

}  // namespace loafmark::insight
