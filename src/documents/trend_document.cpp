#include "documents/trend_document.h"

#include "documents/csv.h"
#include "documents/json_values.h"
#include "documents/number_text.h"

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
            {"n_bakes", fit.bakes},
            {"n_flours", fit.flours},
            {"why_no_interval", reason(fit.why_no_interval)},
            {"robust_slope", robust_json(fit)}};
}

Json points_json(const TrendGroup& group) {
    Json list = Json::array();
    for (const insight::TrendPoint& point : group.points)
        list.push_back({{"bake", point.bake.value},
                        {"date", to_text(point.date)},
                        {"x", number(point.x)},
                        {"y", number(point.y)},
                        {"n_slices", point.slices}});
    return list;
}

Json group_json(const TrendGroup& group) {
    Json fit = nullptr;
    if (group.fit) {
        fit = fit_json(*group.fit);
        if (group.intercept) fit["intercept"] = coefficient(*group.intercept);
    }
    return {{"flour", group.name},
            {"n_bakes", group.points.size()},
            {"points", points_json(group)},
            {"fit", fit},
            {"why_none", reason(group.why_none)}};
}

}  // namespace

std::string trend_document(const Trend& trend) {
    Json groups = Json::array();
    for (const TrendGroup& group : trend.groups)
        groups.push_back(group_json(group));
    const MeasureInfo& info = info_of(trend.question.measure);
    return printed({{"schema", 1},
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
                    {"n_poor_readings", trend.poor_readings}});
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
        default:
            return std::string(insight::name_of(against)) + "_percent";
    }
}

}  // namespace

std::string trend_csv(const Trend& trend) {
    const std::string x = csv_name(trend.question.against);
    const std::string measure(info_of(trend.question.measure).key);
    std::string csv = csv_row({"flour", "bake", "date", "title", x, measure, "slices"});
    for (const TrendGroup& group : trend.groups)
        for (const insight::TrendPoint& point : group.points)
            csv += csv_row({csv_text(group.name), std::to_string(point.bake.value),
                            to_text(point.date), csv_text(point.title), short_text(point.x),
                            short_text(point.y), std::to_string(point.slices)});
    return csv;
}

}  // namespace loafmark::documents
