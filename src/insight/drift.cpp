#include "insight/drift.h"

#include <algorithm>
#include <map>
#include <tuple>

#include "insight/bake_values.h"
#include "insight/compare_words.h"
#include "insight/recipe.h"

namespace loafmark::insight {
namespace {

std::string sentence_of(const Drift& drift, Measure measure) {
    const auto n = drift.points.size();
    const std::string loaf = drift.recipe + ", " + std::to_string(n) + " bakes: ";
    if (!drift.chart)
        return loaf +
               (std::ssize(drift.points) < statistics::least_values_for_limits
                    ? "limits want at least " + std::to_string(statistics::least_values_for_limits)
                    : "all alike, which gives no limits");
    const statistics::ControlChart& chart = *drift.chart;
    std::string text = loaf + std::string(info_of(measure).name) + " " +
                       measured_text(chart.centre, measure) + " on average, limits " +
                       measured_text(chart.low, measure) + " to " +
                       measured_text(chart.high, measure);
    for (const std::size_t i : chart.outside)
        text += "; the bake of " + to_text(drift.points[i].date) + " lies outside";
    if (chart.drifting())
        return text + "; the last " + std::to_string(chart.last_run) + " all lie " +
               (chart.last_run_above ? "above" : "below") +
               " the middle: kitchen, starter or flour has moved, so look there before a variant "
               "is "
               "blamed";
    return text + (chart.outside.empty() ? "; no drift shows" : "");
}

}  // namespace

std::optional<Drift> find_drift(const std::vector<journal::BakeEntry>& bakes, Measure measure) {
    std::map<Recipe, Drift> by_recipe;
    for (const journal::BakeEntry& bake : bakes) {
        if (bake.bake.set_aside) continue;
        const auto mean = bake_mean(bake, measure);
        if (!mean) continue;
        Drift& drift = by_recipe[recipe_of(bake)];
        drift.recipe = recipe_words(bake);
        drift.points.push_back({bake.bake.id, bake.bake.date, mean->value});
    }
    Drift* most = nullptr;
    for (auto& [recipe, drift] : by_recipe) {
        std::ranges::sort(drift.points, {},
                          [](const DriftPoint& p) { return std::tuple(p.date, p.bake); });
        const auto rank = [](const Drift& d) {
            return std::tuple(d.points.size(), d.points.back().date);
        };
        if (!most || rank(drift) > rank(*most)) most = &drift;
    }
    if (!most || most->points.size() < 2) return std::nullopt;
    std::vector<double> values;
    for (const DriftPoint& point : most->points)
        values.push_back(point.value);
    most->chart = statistics::control_chart(values);
    most->sentence = sentence_of(*most, measure);
    return *most;
}

}  // namespace loafmark::insight
