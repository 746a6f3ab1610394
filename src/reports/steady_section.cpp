#include "reports/steady_section.h"

#include "charts/chart.h"
#include "insight/drift.h"
#include "insight/new_bag.h"
#include "insight/steadiness.h"
#include "reports/plain_words.h"

namespace loafmark::reports {
namespace {

using kainjow::mustache::data;

double day_of(Date date) {
    return days_between(Date{1970, 1, 1}, date);
}

// The bakes as marks; the middle as a line with the limits as its band.
std::string drift_svg(const insight::Drift& drift, const MeasureInfo& info) {
    charts::Series series;
    series.name = "limits";
    for (const insight::ControlDay& point : drift.points)
        series.points.push_back({day_of(point.date), point.value, long_date(point.date),
                                 std::string("#bake-").append(std::to_string(point.bake.value))});
    for (const insight::ControlDay& end : {drift.points.front(), drift.points.back()})
        series.line.push_back({day_of(end.date), drift.chart->centre,
                               std::pair(drift.chart->low, drift.chart->high)});
    charts::ScatterChart chart;
    chart.title = std::string(info.name).append(" of one recipe, by date");
    chart.description = as_sentence(drift.sentence);
    chart.x = {"date", "", charts::AxisKind::date};
    chart.y = {std::string(info.name), raised(info.unit), charts::AxisKind::number};
    chart.series = {series};
    return charts::scatter_svg(chart, charts::Embedding::in_page);
}

data rows_of(const insight::Drift& drift, const MeasureInfo& info) {
    data rows{data::type::list};
    for (const insight::ControlDay& point : drift.points) {
        data row;
        row.set("bake_id", std::to_string(point.bake.value));
        row.set("date", long_date(point.date));
        row.set("y", value_text(point.value, info));
        rows.push_back(row);
    }
    return rows;
}

data section_of(const std::vector<journal::BakeEntry>& bakes, Measure measure) {
    const MeasureInfo& info = info_of(measure);
    data section;
    std::string title(info.name);
    title[0] = static_cast<char>(title[0] - 'a' + 'A');
    section.set("steady_title", title);
    section.set("measure", std::string(info.name));
    section.set("repeats", as_sentence(insight::steadiness_sentence(
                               insight::steadiness_of(bakes, measure), false)));
    const auto drift = insight::find_drift(bakes, measure);
    std::string watched = drift ? as_sentence(drift->sentence) : "";
    if (const auto bag = insight::judge_new_bag(bakes, measure))
        watched += (watched.empty() ? "" : " ") + as_sentence(bag->sentence);
    section.set("drift", watched.empty() ? data(false) : data(watched));
    const bool drawn = drift && drift->chart;
    section.set("has_chart", drawn);
    if (drawn) {
        section.set("svg", drift_svg(*drift, info));
        section.set("rows", rows_of(*drift, info));
    }
    return section;
}

}  // namespace

data steady_data(const std::vector<journal::BakeEntry>& bakes) {
    data list{data::type::list};
    for (const Measure measure : {Measure::openness, Measure::coarseness, Measure::loaf_height})
        list.push_back(section_of(bakes, measure));
    return list;
}

}  // namespace loafmark::reports
