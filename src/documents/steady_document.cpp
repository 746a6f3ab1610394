#include "documents/steady_document.h"

#include "documents/json_values.h"
#include "documents/text_table.h"
#include "insight/plain_numbers.h"
#include "insight/reading_notes.h"

namespace loafmark::documents {
namespace {

Json end(const std::optional<statistics::Interval>& interval, double statistics::Interval::*which) {
    return interval ? number((*interval).*which) : Json(nullptr);
}

Json repeats_json(const std::optional<statistics::Repeatability>& repeats) {
    if (!repeats) return nullptr;
    return {{"sd", number(repeats->sd)},
            {"low", number(repeats->interval.low)},
            {"high", number(repeats->interval.high)},
            {"degrees_of_freedom", repeats->degrees_of_freedom},
            {"n_sets", repeats->sets},
            {"limit", number(repeats->limit())}};
}

Json layers_json(const insight::Steadiness& steadiness) {
    Json list = Json::array();
    for (const insight::ScatterLayer& layer : steadiness.layers)
        list.push_back(
            {{"name", layer.name},
             {"sd", number(layer.sd)},
             {"low", end(layer.interval, &statistics::Interval::low)},
             {"high", end(layer.interval, &statistics::Interval::high)},
             {"degrees_of_freedom", layer.degrees_of_freedom},
             {"with", layer.held_within},
             {"below_zero", layer.below_zero},
             {"why_none", layer.why_none.empty() ? Json(nullptr) : Json(layer.why_none)}});
    return list;
}

Json drift_json(const std::optional<insight::Drift>& drift) {
    if (!drift) return nullptr;
    Json points = Json::array();
    for (const insight::ControlDay& day : drift->points)
        points.push_back({{"date", to_text(day.date)},
                          {"bake", day.bake.value},
                          {"n_bakes", day.bakes},
                          {"value", number(day.value)}});
    Json chart = nullptr;
    if (drift->chart)
        chart = {{"centre", number(drift->chart->centre)},
                 {"low", number(drift->chart->low)},
                 {"high", number(drift->chart->high)},
                 {"outside", drift->chart->outside},
                 {"drifting", drift->chart->drifting()}};
    return {{"recipe", drift->recipe},
            {"n_bakes", drift->bakes},
            {"days", points},
            {"limits", chart},
            {"sentence", drift->sentence}};
}

Json bag_json(const std::optional<insight::NewBag>& bag) {
    if (!bag) return nullptr;
    return {{"bag", bag->bag.value},
            {"value", number(bag->value)},
            {"n_days", bag->days},
            {"before", number(bag->before)},
            {"n_days_before", bag->days_before},
            {"expected_low", end(bag->expected, &statistics::Interval::low)},
            {"expected_high", end(bag->expected, &statistics::Interval::high)},
            {"verdict", insight::name_of(bag->verdict)},
            {"sentence", bag->sentence}};
}

std::string layers_table(const insight::Steadiness& steadiness) {
    const MeasureInfo& info = info_of(steadiness.measure);
    // One decimal more than the measure: a scatter is the smaller number.
    const auto shown = [&](double value) { return insight::fixed_text(value, info.decimals + 1); };
    std::vector<std::vector<std::string>> rows;
    for (const insight::ScatterLayer& layer : steadiness.layers) {
        std::string remark = layer.sd ? "" : "cannot be told: " + layer.why_none;
        if (layer.below_zero) remark = "no more than what lies within brings";
        if (layer.sd && !layer.held_within.empty())
            remark += (remark.empty() ? "" : "; ") + std::string("what ") +
                      insight::joined(layer.held_within) + " add is in it";
        rows.push_back({layer.name, layer.sd ? shown(*layer.sd) : "-",
                        layer.interval
                            ? shown(layer.interval->low) + " to " + shown(layer.interval->high)
                            : "-",
                        std::to_string(layer.degrees_of_freedom), remark});
    }
    std::string unit(info.unit);
    return text_table({{"scatter of " + std::string(info.name)},
                       {unit.empty() ? "sd" : "sd, " + unit, Align::right},
                       {"95 % interval", Align::right},
                       {"df", Align::right},
                       {""}},
                      rows);
}

std::string paragraph(std::string sentence) {
    if (!sentence.empty() && sentence[0] >= 'a' && sentence[0] <= 'z')
        sentence[0] = static_cast<char>(sentence[0] - 'a' + 'A');
    return "\n" + sentence + ".\n";
}

}  // namespace

std::string steady_document(const SteadyFindings& findings) {
    const insight::Steadiness& steadiness = findings.steadiness;
    const MeasureInfo& info = info_of(steadiness.measure);
    return printed({{"schema", 1},
                    {"measure", info.key},
                    {"unit", info.unit},
                    {"scatter", layers_json(steadiness)},
                    {"doughs_of_one_day", repeats_json(steadiness.same_day)},
                    {"doughs_of_different_days", repeats_json(steadiness.any_day)},
                    {"sentence", insight::steadiness_sentence(steadiness, false)},
                    {"drift", drift_json(findings.drift)},
                    {"new_bag", bag_json(findings.new_bag)},
                    {"notes", findings.notes}});
}

std::string steady_text(const SteadyFindings& findings) {
    const insight::Steadiness& steadiness = findings.steadiness;
    if (steadiness.layers.empty())
        return "No bake has " + std::string(info_of(steadiness.measure).name) + " yet.\n";
    std::string text = layers_table(steadiness);
    text += paragraph(insight::steadiness_sentence(steadiness, false));
    if (findings.drift) text += paragraph(findings.drift->sentence);
    if (findings.new_bag) text += paragraph(findings.new_bag->sentence);
    for (const std::string& note : findings.notes)
        text += paragraph("Note: " + note);
    return text;
}

}  // namespace loafmark::documents
