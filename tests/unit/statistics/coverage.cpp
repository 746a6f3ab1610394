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
#include "statistics/nested.h"
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

}  // namespace

int main() {
    Dice dice;
    days(dice);
    unequal(dice);
    repeats(dice);
    slopes(dice);
    layers(dice);
}
