#include "insight/trial_plan.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <stdexcept>

#include "insight/plain_numbers.h"
#include "insight/shuffle.h"
#include "insight/steadiness.h"
#include "statistics/comparisons.h"
#include "statistics/group_means.h"
#include "statistics/power.h"
#include "statistics/repeatability.h"

namespace loafmark::insight {
namespace {

// Larmour 1941, see the header.
constexpr double typical_share = 0.05;
constexpr int least_days = 2;

using Days = std::vector<std::vector<int>>;  // variants of each day

void check(const PlanWish& wish) {
    const auto want = [](bool holds, const char* what) {
        if (!holds) throw std::invalid_argument(what);
    };
    want(wish.variants >= 2 && wish.variants <= 20, "a plan wants a control and 1 to 19 variants");
    want(wish.doughs_a_day >= 2 && wish.doughs_a_day <= 40,
         "a bake day holds the control and a variant at least, and 40 doughs at most");
    want(wish.difference > 0, "the difference to be seen must be more than nothing");
    want(wish.sd > 0, "the scatter must be more than nothing");
    want(wish.chance >= 0.05 && wish.chance <= 0.99, "the chance lies within 5 % to 99 %");
    want(!wish.repeats || (*wish.repeats >= 1 && *wish.repeats <= most_repeats),
         "repeats are 1 to 30");
}

// Every variant `repeats` times, as evenly over the days as can be, the control on each day.
Days days_for(const PlanWish& wish, int repeats) {
    const int variants = wish.variants - 1;
    Days days;
    if (wish.doughs_a_day >= wish.variants) {
        // Whole sets, each with its own control, so that all compare alike.
        const int sets_a_day = std::min(wish.doughs_a_day / wish.variants,
                                        std::max(1, (repeats + least_days - 1) / least_days));
        for (int left = repeats; left > 0; left -= sets_a_day) {
            auto& day = days.emplace_back();
            for (int set = 0; set < std::min(left, sets_a_day); ++set)
                for (int v = 0; v < wish.variants; ++v)
                    day.push_back(v);
        }
        return days;
    }
    // Fewer doughs than variants: a control a day, and variants in turn.
    for (int i = 0; i < repeats * variants; ++i) {
        if (days.empty() || static_cast<int>(days.back().size()) == wish.doughs_a_day)
            days.push_back({0});
        days.back().push_back(1 + i % variants);
    }
    return days;
}

struct Reach {
    int degrees_of_freedom = 0;
    double chance = 0;
    double seen = std::numeric_limits<double>::infinity();
};

// What the design sees of the least favoured variant. Nothing can be seen without a degree of
// freedom.
Reach reach_of(const PlanWish& wish, const Days& days) {
    std::vector<statistics::BlockedValue> values;
    double made_up = 0;  // the design alone decides
    for (std::size_t day = 0; day < days.size(); ++day)
        for (const int variant : days[day])
            values.push_back({variant, static_cast<int>(day), made_up = made_up * 1.3 + 1});
    auto means = statistics::blocked_group_means(values, wish.variants);
    if (!means) return {};
    Reach reach{means->degrees_of_freedom, 1, 0};
    means->residual_sd = wish.sd;
    for (const statistics::Difference& d : statistics::against_control(*means, 0)) {
        const double error = d.standard_error;
        reach.chance =
            std::min(reach.chance, statistics::power(wish.difference / error,
                                                     means->degrees_of_freedom, d.critical_value));
        reach.seen = std::max(reach.seen,
                              error * statistics::ratio_seen(wish.chance, means->degrees_of_freedom,
                                                             d.critical_value));
    }
    return reach;
}

// Places of one day: each dough where its variant has been least often, ties by chance.
void place_in_oven(std::vector<PlannedDough>& day, const PlanWish& wish, Chance& chance,
                   std::map<std::pair<int, std::size_t>, int>& been) {
    if (wish.oven_places.empty()) return;
    std::vector<std::size_t> free;
    for (PlannedDough& dough : day) {
        if (free.empty()) {
            for (std::size_t i = 0; i < wish.oven_places.size(); ++i)
                free.push_back(i);
            chance.shuffle(free);
        }
        const auto best = std::ranges::min_element(free, {}, [&](std::size_t place) {
            return been[{dough.variant, place}];
        });
        ++been[{dough.variant, *best}];
        dough.oven_place = wish.oven_places[*best];
        free.erase(best);
    }
}

std::vector<std::vector<PlannedDough>> shuffled(const PlanWish& wish, const Days& days) {
    Chance chance(wish.seed);
    std::map<std::pair<int, std::size_t>, int> been;
    std::vector<std::vector<PlannedDough>> plan;
    for (std::vector<int> day : days) {
        chance.shuffle(day);
        auto& doughs = plan.emplace_back();
        for (const int variant : day)
            doughs.push_back({variant, ""});
        place_in_oven(doughs, wish, chance, been);
    }
    return plan;
}

Plan planned(const PlanWish& wish, int repeats) {
    const Days days = days_for(wish, repeats);
    const Reach reach = reach_of(wish, days);
    return {repeats,      shuffled(wish, days), reach.degrees_of_freedom,
            reach.chance, reach.seen,           reach.chance >= wish.chance};
}

}  // namespace

std::optional<Scatter> scatter_of(const std::vector<journal::BakeEntry>& bakes, Measure measure) {
    if (const auto judge = judge_of(steadiness_of(bakes, measure), true); judge && judge->sd > 0)
        return Scatter{judge->sd, judge->degrees_of_freedom,
                       "this journal's own repeats, " + std::to_string(judge->degrees_of_freedom) +
                           " degrees of freedom"};
    double sum = 0;
    int count = 0;
    for (const journal::BakeEntry& bake : bakes)
        if (const auto mean = bake_mean(bake, measure); mean && !bake.bake.set_aside) {
            sum += mean->value;
            ++count;
        }
    if (count == 0 || !(sum > 0)) return std::nullopt;
    return Scatter{typical_share * sum / count, 0,
                   "a typical 5 % of the journal's mean " + std::string(info_of(measure).name) +
                       ", until its own repeats are enough"};
}

Plan plan_trial(const PlanWish& wish) {
    check(wish);
    if (wish.repeats) return planned(wish, *wish.repeats);
    for (int repeats = least_days; repeats < most_repeats; ++repeats)
        if (reach_of(wish, days_for(wish, repeats)).chance >= wish.chance)
            return planned(wish, repeats);
    return planned(wish, most_repeats);
}

std::vector<PlanRow> plan_rows(const PlanWish& wish, int up_to) {
    check(wish);
    std::vector<PlanRow> rows;
    for (int repeats = least_days; repeats <= std::min(up_to, most_repeats); ++repeats) {
        const Days days = days_for(wish, repeats);
        const Reach reach = reach_of(wish, days);
        int doughs = 0;
        for (const auto& day : days)
            doughs += static_cast<int>(day.size());
        rows.push_back({repeats, static_cast<int>(days.size()), doughs, reach.seen, reach.chance});
    }
    return rows;
}

}  // namespace loafmark::insight
