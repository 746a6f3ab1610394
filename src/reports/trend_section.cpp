#include "reports/trend_section.h"

#include "insight/plain_numbers.h"
#include "insight/trend.h"
#include "reports/plain_words.h"
#include "reports/trend_chart.h"

namespace loafmark::reports {
namespace {

using kainjow::mustache::data;

data rows_of(const insight::Trend& trend) {
    const MeasureInfo& info = info_of(trend.question.measure);
    data rows{data::type::list};
    for (const insight::TrendGroup& group : trend.groups)
        for (const insight::TrendPoint& point : group.points) {
            data row;
            row.set("flour", group.name);
            row.set("bake_id", std::to_string(point.bake.value));
            row.set("date", long_date(point.date));
            row.set("bake_title", point.title);
            row.set("x", insight::fixed_text(point.x, 1));
            row.set("y", value_text(point.y, info));
            row.set("slices", std::to_string(point.slices));
            rows.push_back(row);
        }
    return rows;
}

data trend_data(const insight::Trend& trend) {
    const MeasureInfo& info = info_of(trend.question.measure);
    data section;
    std::string title(info.name);
    title[0] = static_cast<char>(title[0] - 'a' + 'A');
    section.set("trend_title", title);
    section.set("measure", std::string(info.name));
    section.set("sentence", trend_words(trend));
    section.set("has_chart", !trend.groups.empty());
    section.set("svg", trend_svg(trend, charts::Embedding::in_page));
    section.set("rows", rows_of(trend));
    return section;
}

}  // namespace

data trends_data(const std::vector<journal::BakeEntry>& bakes) {
    data trends{data::type::list};
    for (const Measure measure : {Measure::openness, Measure::coarseness, Measure::loaf_height})
        trends.push_back(trend_data(
            insight::find_trend(bakes, {measure, insight::Against::hydration, std::nullopt})));
    return trends;
}

}  // namespace loafmark::reports
