#include "insight/drift.h"

#include "insight/compare_words.h"
#include "insight/recipe.h"

namespace loafmark::insight {
namespace {

std::string sentence_of(const Drift& drift, Measure measure) {
    const auto days = std::ssize(drift.points);
    std::string loaf = drift.recipe + ", " + std::to_string(drift.bakes) + " bakes";
    if (days != drift.bakes) loaf += " on " + std::to_string(days) + (days == 1 ? " day" : " days");
    loaf += ": ";
    if (!drift.chart)
        return loaf +
               (days < statistics::least_values_for_limits
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

std::optional<Drift> find_drift(const std::vector<journal::BakeEntry>& bakes, Measure measure,
                                EndSlices ends) {
    const std::vector<ControlBake> control = control_loaf(bakes, measure, ends);
    if (control.size() < 2) return std::nullopt;
    Drift drift;
    drift.recipe = recipe_words(*control.front().entry);
    drift.bakes = static_cast<int>(control.size());
    drift.points = by_day(control);
    std::vector<double> values;
    for (const ControlDay& day : drift.points)
        values.push_back(day.value);
    drift.chart = statistics::control_chart(values);
    drift.sentence = sentence_of(drift, measure);
    return drift;
}

}  // namespace loafmark::insight
