#include "documents/trend_document.h"

#include <set>

#include "documents/csv.h"
#include "documents/json_values.h"
#include "documents/number_text.h"
#include "insight/trend_words.h"

namespace loafmark::documents {
namespace {

using insight::Trend;
using insight::TrendFit;
using insight::TrendGroup;

Json reason(const std::string& why) {
    return why.empty() ? Json(nullptr) : Json(why);
}

Json robust_json(const TrendFit& fit) {
    if (!fit.robust) return nullptr;
    const auto& interval = fit.robust->interval;
    return {{"value", number(fit.robust->slope)},
            {"low", interval ? number(interval->low) : Json(nullptr)},
            {"high", interval ? number(interval->high) : Json(nullptr)}};
}

Json bend_json(const Trend& trend) {
    if (!trend.bend) return nullptr;
    const statistics::Ratio& turn = trend.bend->turning_point;
    return {{"bend", coefficient(trend.bend->bend)},
            {"turning_point",
             {{"value", number(turn.value)},
              {"low", turn.interval ? number(turn.interval->low) : Json(nullptr)},
              {"high", turn.interval ? number(turn.interval->high) : Json(nullptr)}}},
            {"degrees_of_freedom", trend.bend->degrees_of_freedom}};
}

Json fit_json(const TrendFit& fit) {
    return {{"model", insight::name_of(fit.model)},
            {"slope", coefficient(fit.slope)},
            {"residual_sd", number(fit.residual_sd)},
            {"degrees_of_freedom", fit.degrees_of_freedom},
            {"n_points", fit.points},
            {"n_bakes", fit.bakes},
            {"n_flours", fit.groups},
            {"n_intercepts", fit.intercepts},
            {"within_doughs", fit.within_doughs},
            {"why_no_interval", reason(fit.why_no_interval)},
            {"robust_slope", robust_json(fit)}};
}

Json points_json(const TrendGroup& group) {
    Json list = Json::array();
    for (const insight::TrendPoint& point : group.points) {
        list.push_back({{"bake", point.bake.value},
                        {"date", to_text(point.date)},
                        {"x", number(point.x)},
                        {"y", number(point.y)},
                        {"n_slices", point.slices}});
        if (!point.loaves.empty()) list.back()["loaves"] = point.loaves;
    }
    return list;
}

Json group_json(const TrendGroup& group) {
    Json fit = nullptr;
    if (group.fit) {
        fit = fit_json(*group.fit);
        if (group.intercept) fit["intercept"] = coefficient(*group.intercept);
    }
    std::set<journal::BakeId> bakes;
    for (const insight::TrendPoint& point : group.points)
        bakes.insert(point.bake);
    Json json{{"flour", group.name}};
    if (!group.bag.empty()) {
        json["bag"] = group.bag;
        json["bags"] = Json::array();
        for (const journal::BagId bag : group.bags)
            json["bags"].push_back(bag.value);
    }
    json["n_bakes"] = bakes.size();
    json["points"] = points_json(group);
    json["fit"] = fit;
    json["why_none"] = reason(group.why_none);
    return json;
}

// The rule by which minutes were brought to one temperature, one a leaven.
Json common_temperature_json(const Trend& trend) {
    Json rules = Json::array();
    for (const insight::ProofDoubling& doubling : trend.doublings) {
        const auto& interval = doubling.interval;
        rules.push_back(
            {{"leaven", doubling.leaven.empty() ? Json(nullptr) : Json(doubling.leaven)},
             {"doubling_kelvins", number(doubling.degrees)},
             {"low", interval ? number(interval->low) : Json(nullptr)},
             {"high", interval ? number(interval->high) : Json(nullptr)},
             {"learnt_from_proofs", doubling.proofs},
             {"degrees_of_freedom", doubling.degrees_of_freedom},
             {"source", doubling.proofs > 0 ? "this journal" : "common practice, no source"}});
    }
    return {{"celsius", insight::common_proof_temperature.degrees()},
            {"from_celsius", insight::coldest_weighted_proof.degrees()},
            {"to_celsius", insight::warmest_weighted_proof.degrees()},
            {"rules", rules},
            {"n_loaves_outside", trend.outside_temperature}};
}

}  // namespace

std::string trend_document(const Trend& trend) {
    Json groups = Json::array();
    for (const TrendGroup& group : trend.groups)
        groups.push_back(group_json(group));
    const MeasureInfo& info = info_of(trend.question.measure);
    Json document = {{"schema", 1},
                     {"measure", info.key},
                     {"by", insight::name_of(trend.question.against)},
                     {"unit", info.unit},
                     {"x_unit", insight::unit_of(trend.question.against)},
                     {"groups", groups},
                     {"common_fit", trend.common ? fit_json(*trend.common) : Json(nullptr)},
                     {"bend", bend_json(trend)},
                     {"why_none", reason(trend.why_none)},
                     {"sentence", trend.sentence},
                     {"n_set_aside", trend.set_aside},
                     {"n_end_slices", trend.end_slices},
                     {"n_without_value", trend.without_value},
                     {"n_poor_readings", trend.poor_readings},
                     {"notes", trend.notes}};
    if (trend.question.against == insight::Against::proof_at_25c)
        document["common_temperature"] = common_temperature_json(trend);
    return printed(document);
}

namespace {

// A column's name says its unit.
std::string csv_name(insight::Against against) {
    switch (against) {
        case insight::Against::date:
            return "days_since_1970_01_01";
        case insight::Against::dough_temperature:
            return "dough_temperature_celsius";
        case insight::Against::room_temperature:
            return "room_temperature_celsius";
        case insight::Against::proof:
            return "proof_minutes";
        case insight::Against::proof_at_25c:
            return "proof_at_25_celsius_minutes";
        default:
            return std::string(insight::name_of(against)) + "_percent";
    }
}

}  // namespace

std::string trend_csv(const Trend& trend) {
    const std::string x = csv_name(trend.question.against);
    const std::string measure(info_of(trend.question.measure).key);
    const bool by_bag = trend.question.split == insight::Split::bag;
    const bool of_loaves = insight::is_of_loaves(trend.question.against);
    std::vector<std::string> headings{"flour", "bake", "date", "title", x, measure, "slices"};
    if (by_bag) headings.emplace_back("bag");
    if (of_loaves) headings.emplace_back("loaves");
    std::string csv = csv_row(headings);
    for (const TrendGroup& group : trend.groups)
        for (const insight::TrendPoint& point : group.points) {
            std::vector<std::string> row{
                csv_text(group.name),        std::to_string(point.bake.value),
                to_text(point.date),         csv_text(point.title),
                short_text(point.x),         short_text(point.y),
                std::to_string(point.slices)};
            if (by_bag) row.push_back(csv_text(group.bag));
            if (of_loaves) row.push_back(csv_text(insight::loaves_text(point)));
            csv += csv_row(row);
        }
    return csv;
}

}  // namespace loafmark::documents
