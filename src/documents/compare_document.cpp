#include "documents/compare_document.h"

#include "documents/json_values.h"
#include "documents/text_table.h"
#include "insight/plain_numbers.h"

namespace loafmark::documents {
namespace {

using insight::Basis;
using insight::Comparison;
using insight::MeasureComparison;
using insight::MeasuredDifference;
using insight::Verdict;

std::string_view name_of(Basis basis) {
    switch (basis) {
        case Basis::days:
            return "repeats within days";
        case Basis::repeats:
            return "repeats";
        case Basis::journal:
            return "journal";
        case Basis::none:
            return "none";
    }
    return "";
}

std::string_view name_of(Verdict verdict) {
    switch (verdict) {
        case Verdict::more:
            return "more";
        case Verdict::less:
            return "less";
        case Verdict::not_told_apart:
            return "not told apart";
        case Verdict::cannot_tell:
            return "cannot tell";
    }
    return "";
}

Json with_interval(double value, const std::optional<statistics::Interval>& interval) {
    return {{"value", number(value)},
            {"low", interval ? number(interval->low) : Json(nullptr)},
            {"high", interval ? number(interval->high) : Json(nullptr)}};
}

Json difference_json(const MeasuredDifference& d) {
    return {{"contender", d.contender},
            {"difference", with_interval(d.value, d.interval)},
            {"difference_percent", with_interval(d.percent, d.percent_interval)},
            {"p", number(d.p)},
            {"verdict", name_of(d.verdict)},
            {"sentence", d.sentence}};
}

Json measure_json(const MeasureComparison& one) {
    Json means = Json::array();
    for (std::size_t i = 0; i < one.means.size(); ++i)
        means.push_back({{"value", number(one.means[i])}, {"n_bakes", one.bakes[i]}});
    Json differences = Json::array();
    for (const MeasuredDifference& d : one.differences)
        differences.push_back(difference_json(d));
    return {{"measure", info_of(one.measure).key},
            {"unit", info_of(one.measure).unit},
            {"means", means},
            {"basis", name_of(one.basis)},
            {"sd", number(one.sd)},
            {"degrees_of_freedom", one.degrees_of_freedom},
            {"differences", differences},
            {"sentence", one.sentence}};
}

std::string means_table(const Comparison& comparison) {
    std::vector<Column> columns = {{"measure"}};
    for (std::size_t i = 0; i < comparison.contenders.size(); ++i)
        columns.push_back({i == 0 ? "control" : std::to_string(i), Align::right});
    std::vector<std::vector<std::string>> rows;
    for (const MeasureComparison& one : comparison.measures) {
        const MeasureInfo& info = info_of(one.measure);
        std::vector<std::string> row = {std::string(info.name)};
        if (!info.unit.empty()) row[0].append(", ").append(info.unit);
        for (const auto& mean : one.means)
            row.push_back(mean ? insight::fixed_text(*mean, info.decimals) : "-");
        rows.push_back(std::move(row));
    }
    return text_table(columns, rows);
}

std::string contenders_text(const Comparison& comparison) {
    std::string text;
    for (std::size_t i = 0; i < comparison.contenders.size(); ++i) {
        const insight::Contender& contender = comparison.contenders[i];
        text += (i == 0 ? "control: " : std::to_string(i) + ": ") + contender.name;
        std::string bakes;
        for (const journal::BakeEntry& bake : contender.bakes)
            bakes += (bakes.empty() ? "" : ", ") + to_text(bake.bake.date) + " " + bake.bake.title;
        text += " (" + bakes + ")\n";
    }
    return text;
}

}  // namespace

std::string compare_document(const Comparison& comparison) {
    Json contenders = Json::array();
    for (const insight::Contender& contender : comparison.contenders) {
        Json bakes = Json::array();
        for (const journal::BakeEntry& bake : contender.bakes)
            bakes.push_back(bake.bake.id.value);
        contenders.push_back({{"name", contender.name}, {"bakes", bakes}});
    }
    Json measures = Json::array();
    for (const MeasureComparison& one : comparison.measures)
        measures.push_back(measure_json(one));
    return printed({{"schema", 1},
                    {"contenders", contenders},
                    {"measures", measures},
                    {"confounded", comparison.confounded},
                    {"notes", comparison.notes}});
}

std::string compare_table(const Comparison& comparison) {
    std::string text = contenders_text(comparison) + "\n" + means_table(comparison);
    std::string untold;
    for (const MeasureComparison& one : comparison.measures) {
        text += "\n" + std::string(info_of(one.measure).name) + "\n";
        for (const MeasuredDifference& d : one.differences)
            text += "  " + d.sentence + "\n";
        // What is wanted before anyone can tell is said once, it is much the same for all measures.
        if (one.basis != Basis::none || one.differences.empty())
            text += "  " + one.sentence + "\n";
        else if (untold.empty())
            untold = one.sentence;
    }
    if (!untold.empty()) text += "\nNote: " + untold + ".\n";
    for (const std::string& line : comparison.confounded)
        text += "\nConfounded: " + line + ".\n";
    for (const std::string& line : comparison.notes)
        text += "\nNote: " + line + ".\n";
    return text;
}

}  // namespace loafmark::documents
