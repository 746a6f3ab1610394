#include "reports/trend_chart.h"

#include "reports/flour_groups.h"
#include "reports/plain_words.h"

namespace loafmark::reports {
namespace {

charts::Series series_of(const insight::TrendGroup& group, const MeasureInfo& info,
                         charts::Embedding embedding) {
    charts::Series series;
    series.name = group.label();
    for (const insight::TrendPoint& point : group.points) {
        std::string note = long_date(point.date);
        note.append(", ").append(point.title).append(": ").append(value_text(point.y, info));
        const bool leads = embedding == charts::Embedding::in_page;
        series.points.push_back(
            {point.x, point.y, note, leads ? "#bake-" + std::to_string(point.bake.value) : ""});
    }
    for (const statistics::FittedPoint& place : group.line) {
        charts::LinePoint at{place.x, place.y, std::nullopt};
        if (place.interval) at.interval = {place.interval->low, place.interval->high};
        series.line.push_back(at);
    }
    return series;
}

}  // namespace

std::string trend_words(const insight::Trend& trend) {
    std::string text = as_sentence(trend.sentence);
    if (trend.groups.size() <= most_flours) return text;
    const bool bags = trend.question.split == insight::Split::bag;
    return text + " The chart shows " + std::to_string(most_flours) + " of " +
           std::to_string(trend.groups.size()) + (bags ? " bags" : " flours") +
           ", those with most bakes.";
}

std::string trend_svg(const insight::Trend& trend, charts::Embedding embedding) {
    const MeasureInfo& info = info_of(trend.question.measure);
    const bool by_date = trend.question.against == insight::Against::date;
    charts::ScatterChart chart;
    const std::string x(insight::plain_name_of(trend.question.against));
    chart.title = std::string(info.name)
                      .append(" against ")
                      .append(x)
                      .append(trend.question.split == insight::Split::bag ? ", by flour and bag"
                                                                          : ", by flour");
    chart.description = trend_words(trend);
    chart.x = {x, by_date ? "" : std::string(insight::unit_of(trend.question.against)),
               by_date ? charts::AxisKind::date : charts::AxisKind::number};
    chart.y = {std::string(info.name), raised(info.unit), charts::AxisKind::number};
    for (const insight::TrendGroup& group : trend.groups)
        if (chart.series.size() < most_flours)
            chart.series.push_back(series_of(group, info, embedding));
    return charts::scatter_svg(chart, embedding);
}

}  // namespace loafmark::reports
