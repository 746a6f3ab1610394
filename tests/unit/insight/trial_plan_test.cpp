#include "insight/trial_plan.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <stdexcept>

#include "catch.h"
#include "statistics/comparisons.h"
#include "statistics/power.h"

using namespace loafmark;
using namespace loafmark::insight;

namespace {

std::map<int, int> counts(const Plan& plan) {
    std::map<int, int> counts;
    for (const auto& day : plan.days)
        for (const PlannedDough& dough : day)
            ++counts[dough.variant];
    return counts;
}

PlanWish wish(int variants, int doughs_a_day, double difference, double sd = 4) {
    PlanWish wish;
    wish.variants = variants;
    wish.doughs_a_day = doughs_a_day;
    wish.difference = difference;
    wish.sd = sd;
    wish.oven_places = {"left", "middle", "right"};
    return wish;
}

}  // namespace

TEST_CASE("every bake day holds the control, and variants come equally often") {
    for (const int variants : {2, 3, 4, 7})
        for (const int a_day : {2, 3, 4, 8}) {
            INFO(variants << " variants, " << a_day << " doughs a day");
            const Plan plan = plan_trial(wish(variants, a_day, 8));
            CHECK(plan.days.size() >= 2);
            const auto n = counts(plan);
            for (int v = 1; v < variants; ++v)
                CHECK(n.at(v) == plan.repeats);
            CHECK(n.at(0) >= plan.repeats);
            for (const auto& day : plan.days) {
                CHECK(static_cast<int>(day.size()) <= a_day);
                CHECK(std::ranges::count(day, 0, &PlannedDough::variant) >= 1);
            }
        }
}

TEST_CASE("two variants on days of their own have the power of a paired comparison") {
    // A control and one variant once a day on n days is the paired t test with n - 1 degrees of
    // freedom, the standard error sd x sqrt(2 / n). R's power.t.test(n = 10, delta = 1, sd = 1,
    // type = "paired") has the same form with its sd of differences; here sd = 1 / sqrt(2).
    PlanWish paired = wish(2, 2, 1, std::sqrt(0.5));
    paired.repeats = 10;
    const Plan plan = plan_trial(paired);
    CHECK(plan.days.size() == 10);
    CHECK(plan.degrees_of_freedom == 9);
    // t(0.975, 9) = 2.262157 (any table); noncentrality sqrt(10).
    CHECK(std::abs(plan.chance - statistics::power(std::sqrt(10.0), 9, 2.262157)) < 1e-5);
}

TEST_CASE("the difference that is seen has the wished chance, and more repeats see less") {
    PlanWish w = wish(3, 3, 8);
    w.repeats = 2;
    const Plan two = plan_trial(w);
    CHECK_FALSE(two.enough);
    CHECK(two.seen > 8);
    w.difference = two.seen;
    CHECK(std::abs(plan_trial(w).chance - 0.8) < 1e-6);
    const auto rows = plan_rows(wish(3, 3, 8), 8);
    REQUIRE(rows.size() == 7);
    for (std::size_t i = 1; i < rows.size(); ++i) {
        CHECK(rows[i].seen < rows[i - 1].seen);
        CHECK(rows[i].chance > rows[i - 1].chance);
    }
    const Plan enough = plan_trial(wish(3, 3, 8));
    CHECK(enough.enough);
    CHECK(enough.chance >= 0.8);
    w = wish(3, 3, 8);
    w.repeats = enough.repeats - 1;
    CHECK(plan_trial(w).chance < 0.8);
}

TEST_CASE("the plan follows from the seed, and the order is not always the same") {
    PlanWish w = wish(3, 3, 6);
    w.seed = 5;
    const auto days = plan_trial(w).days;
    CHECK(days == plan_trial(w).days);
    w.seed = 6;
    CHECK(days != plan_trial(w).days);
    // Each variant first somewhere over many days, and at every oven place.
    w.repeats = 30;
    std::set<int> first;
    std::map<std::pair<int, std::string>, int> places;
    for (const auto& day : plan_trial(w).days) {
        first.insert(day.front().variant);
        for (const PlannedDough& dough : day)
            ++places[{dough.variant, dough.oven_place}];
    }
    CHECK(first.size() == 3);
    CHECK(places.size() == 9);
    for (const auto& [what, count] : places)
        CHECK((count >= 8 && count <= 12));
}

TEST_CASE("what no kitchen can see is said, and what makes no plan is refused") {
    const Plan hopeless = plan_trial(wish(3, 3, 0.1));
    CHECK_FALSE(hopeless.enough);
    CHECK(hopeless.repeats == most_repeats);
    PlanWish once = wish(3, 3, 8);
    once.repeats = 1;
    const Plan blind = plan_trial(once);
    CHECK(blind.chance == 0);
    CHECK(std::isinf(blind.seen));
    CHECK_THROWS_AS(plan_trial(wish(1, 3, 8)), std::invalid_argument);
    CHECK_THROWS_AS(plan_trial(wish(2, 1, 8)), std::invalid_argument);
    CHECK_THROWS_AS(plan_trial(wish(2, 2, 0)), std::invalid_argument);
    CHECK_THROWS_AS(plan_trial(wish(2, 2, 8, 0)), std::invalid_argument);
}
