// A program run by hand: how often 95 % intervals hold the truth over 10 000 made-up journals. Its
// figures stand in docs/statistics.md. Build and run:
//   ninja -C build statistics_coverage && build/tests/unit/statistics/statistics_coverage
#include <array>
#include <cmath>
#include <cstdio>
#include <random>
#include <vector>

#include "statistics/comparisons.h"
#include "statistics/curve.h"
#include "statistics/line_or_curve.h"
#include "statistics/nested.h"
#include "statistics/prediction.h"
#include "statistics/repeatability.h"
#include "statistics/robust_slope.h"

using namespace loafmark::statistics;

namespace {

constexpr int journals = 10000;

class Dice {
  public:
    double operator()(double sd) { return sd * normal_(engine_); }

  private:
    std::mt19937_64 engine_{20260301};
    std::normal_distribution<double> normal_;
};

void say(const char* what, int held, int of = journals) {
    std::printf("%-58s %5.1f %% of %d\n", what, 100.0 * held / of, of);
}

// All differences of one journal within critical value x error of the truth, which is 0 throughout.
// The critical value is the design's, so it is reckoned once.
bool all_hold(const GroupMeans& groups, bool pairs, double critical) {
    for (std::size_t j = 1; j < groups.means.size(); ++j)
        for (std::size_t i = 0; i < (pairs ? j : 1); ++i) {
            const double error =
                groups.residual_sd * std::sqrt(groups.unscaled_variance_of_difference(j, i));
            if (std::abs(groups.means[j] - groups.means[i]) > critical * error) return false;
        }
    return true;
}

void days(Dice& dice) {
    int held = 0;
    double critical = 0;
    for (int n = 0; n < journals; ++n) {
        std::vector<BlockedValue> values;
        for (int day = 0; day < 4; ++day) {
            const double level = dice(5);
            for (int group = 0; group < 4; ++group)
                values.push_back({group, day, 80 + level + dice(2)});
        }
        const auto groups = blocked_group_means(values, 4);
        if (n == 0) critical = against_control(*groups, 0)[0].critical_value;
        held += all_hold(*groups, false, critical) ? 1 : 0;
    }
    say("Dunnett, 3 variants and a control on 4 days", held);
}

void unequal(Dice& dice) {
    int dunnett = 0;
    int tukey = 0;
    double d = 0;
    double q = 0;
    for (int n = 0; n < journals; ++n) {
        std::vector<std::vector<double>> groups;
        for (const int size : {2, 3, 5, 9}) {
            groups.emplace_back();
            for (int i = 0; i < size; ++i)
                groups.back().push_back(80 + dice(2));
        }
        const auto means = group_means(groups);
        if (n == 0) {
            d = against_control(*means, 0)[0].critical_value;
            q = all_pairs(*means)[0].critical_value;
        }
        dunnett += all_hold(*means, false, d) ? 1 : 0;
        tukey += all_hold(*means, true, q) ? 1 : 0;
    }
    say("Dunnett, 2 to 9 bakes each", dunnett);
    say("Tukey-Kramer, 2 to 9 bakes each", tukey);
}

void repeats(Dice& dice) {
    int held = 0;
    for (int n = 0; n < journals; ++n) {
        std::vector<std::vector<double>> sets;
        for (int set = 0; set < 3; ++set) {
            const double level = 80 + dice(10);
            sets.push_back({level + dice(2), level + dice(2)});
        }
        const auto found = pooled_repeatability(sets);
        held += std::abs(dice(2) - dice(2)) <= *found->limit() ? 1 : 0;
    }
    say("two single bakes within the pooled limit, 3 df", held);
}

void slopes(Dice& dice) {
    int robust = 0;
    int peak = 0;
    int determined = 0;
    for (int n = 0; n < journals; ++n) {
        std::vector<Point> line;
        std::vector<Point> bent;
        for (int i = 0; i < 8; ++i)
            line.push_back({60.0 + 3 * i, 0.01 * 3 * i + dice(0.03)});
        for (int i = 0; i < 12; ++i) {
            const double x = 60 + 4 * (i / 2);
            bent.push_back({x, -0.004 * (x - 71) * (x - 71) + dice(0.06)});
        }
        const auto slope = robust_slope(line);
        robust += slope->interval->low <= 0.01 && slope->interval->high >= 0.01 ? 1 : 0;
        const auto turn = fit_curve({bent})->turning_point();
        if (!turn->interval) continue;
        ++determined;
        peak += turn->interval->low <= 71 && turn->interval->high >= 71 ? 1 : 0;
    }
    say("robust slope, 8 bakes", robust);
    say("Fieller's interval of a peak, 12 bakes", peak, determined);
}

void layers(Dice& dice) {
    const std::array<double, 3> sd{2, 1, 0.5};
    std::array<int, 3> held{};
    for (int n = 0; n < journals; ++n) {
        std::vector<NestedValue> values;
        for (int day = 0; day < 8; ++day) {
            const double of_day = dice(sd[0]);
            for (int dough = 0; dough < 2 + day % 2; ++dough) {
                const double of_dough = of_day + dice(sd[1]);
                for (int loaf = 0; loaf < 2; ++loaf)
                    values.push_back({{day, dough}, of_dough + dice(sd[2])});
            }
        }
        const auto parts = variance_components(values);
        for (std::size_t i = 0; i < sd.size(); ++i)
            held[i] +=
                parts[i].interval->low <= sd[i] * sd[i] && sd[i] * sd[i] <= parts[i].interval->high
                    ? 1
                    : 0;
    }
    say("scatter between days, 8 days of 2 or 3 doughs", held[0]);
    say("scatter between doughs", held[1]);
    say("scatter between loaves", held[2]);
}

bool holds(const Interval& interval, double truth) {
    return interval.low <= truth && truth <= interval.high;
}

// Loaves of one dough proved for 60 and 90 minutes, `split` doughs, and doughs proved whole; doughs
// scatter three times as far as loaves. A block a split dough, one for all others.
int proofs_held(Dice& dice, int split, int whole) {
    int held = 0;
    for (int n = 0; n < journals; ++n) {
        std::vector<std::vector<Point>> blocks;
        const auto loaf = [&](double dough, double minutes) {
            return Point{minutes, 80 + 0.2 * minutes + dough + dice(1)};
        };
        for (int i = 0; i < split; ++i) {
            const double dough = dice(3);
            blocks.push_back({loaf(dough, 60), loaf(dough, 90)});
        }
        if (whole > 0) blocks.emplace_back();
        for (int i = 0; i < whole; ++i)
            blocks.back().push_back(loaf(dice(3), 45 + 60.0 * i / (whole - 1)));
        held += holds(*fit_parallel_lines(blocks)->slope.interval, 0.2) ? 1 : 0;
    }
    return held;
}

void proofs(Dice& dice) {
    say("slope over proof, 4 doughs of 2 loaves", proofs_held(dice, 4, 0));
    say("slope over proof, 2 doughs of 2 loaves among 4 whole", proofs_held(dice, 2, 4));
    say("slope over proof, 2 doughs of 2 loaves among 2 whole", proofs_held(dice, 2, 2));
}

// The true line reaches the control's height, 83, at 70; the true share that keeps nine tenths of
// 100 is 50.
void advice(Dice& dice) {
    int water = 0;
    int with_end = 0;
    int share = 0;
    int bag = 0;
    for (int n = 0; n < journals; ++n) {
        std::vector<Point> waters;
        for (const double x : {60.0, 64.0, 68.0, 72.0, 76.0, 66.0, 74.0})
            waters.push_back({x, 83 + 0.8 * (x - 70) + dice(2)});
        double control = 83;
        for (int i = 0; i < 3; ++i)
            control += dice(2) / 3;
        const auto line = fit_line_or_curve(waters);
        if (line && goes_anywhere(*line)) {
            // Ends that there are not count as held.
            const Nearest nearest = nearest_to(*line, control, 3, 58, 78);
            ++with_end;
            water += (!nearest.low || *nearest.low <= 70) && (!nearest.high || 70 <= *nearest.high)
                         ? 1
                         : 0;
        }
        std::vector<Point> blends;
        for (const double x : {0.0, 0.0, 15.0, 30.0, 45.0, 60.0, 75.0, 90.0})
            blends.push_back({x, 100 - 0.2 * x + dice(2)});
        const auto mixed = fit_line_or_curve(blends);
        share += keeps_up_to(*mixed, 0.9, 0, 90) <= 50 ? 1 : 0;
        std::vector<double> before;
        for (int i = 0; i < 5; ++i)
            before.push_back(80 + dice(3));
        bag += holds(*prediction_interval(before, 1), 80 + dice(3)) ? 1 : 0;
    }
    say("water as the control, 7 bakes and 3 of the control", water, with_end);
    say("share that keeps 90 %, one-sided, 8 bakes", share);
    say("a new bag's bake, 5 days before", bag);
}

// Proofs to the same dent, 9 degrees a doubling, of two formulas; told only where the slope is.
void doublings(Dice& dice) {
    int held = 0;
    int learnt = 0;
    for (int n = 0; n < journals; ++n) {
        std::vector<std::vector<Point>> formulas(2);
        for (std::vector<Point>& formula : formulas)
            for (const double degrees : {18.0, 21.0, 24.0, 28.0})
                formula.push_back({degrees, 9 - degrees / 9 + dice(0.25)});
        const Interval slope = *fit_parallel_lines(formulas)->slope.interval;
        if (!(slope.high < 0)) continue;
        ++learnt;
        held += holds({-1 / slope.low, -1 / slope.high}, 9) ? 1 : 0;
    }
    say("doubling of proof where it is learnt, 8 proofs", held, learnt);
}

}  // namespace

int main() {
    Dice dice;
    days(dice);
    unequal(dice);
    repeats(dice);
    slopes(dice);
    layers(dice);
    proofs(dice);
    advice(dice);
    doublings(dice);
}
