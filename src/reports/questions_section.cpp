#include "reports/questions_section.h"

#include <cmath>

#include "charts/chart.h"
#include "insight/bake_values.h"
#include "insight/plain_numbers.h"
#include "reports/flour_groups.h"
#include "reports/plain_words.h"

namespace loafmark::reports {
namespace {

using insight::Question;
using kainjow::mustache::data;

data cell(const std::string& text, bool number = true) {
    data one;
    one.set("text", text);
    one.set("number", number);
    return one;
}

data row_of(const journal::BakeEntry& bake, const std::string& flour) {
    data row;
    row.set("flour", flour);
    row.set("bake_id", std::to_string(bake.bake.id.value));
    row.set("date", long_date(bake.bake.date));
    row.set("bake_title", bake.bake.title);
    return row;
}

data heading(const std::string& text) {
    data one;
    one.set("text", text);
    return one;
}

// One mark a slice that counts in statistics, with the interval of its cut face.
charts::StripRow strip_of(const FlourGroup& group, Measure measure, data& rows) {
    const MeasureInfo& info = info_of(measure);
    charts::StripRow strip{group.name, {}};
    for (const journal::BakeEntry* bake : group.bakes)
        for (const journal::LoafEntry& loaf : bake->loaves)
            for (const journal::SliceEntry& slice : loaf.slices) {
                if (!insight::counts(slice)) continue;
                const auto found = slice.reading->values.find(measure);
                if (found == slice.reading->values.end() || !std::isfinite(found->second.value))
                    continue;
                const Estimate& value = found->second;
                const std::string text = value_text(value.value, info);
                strip.points.push_back(
                    {value.value,
                     long_date(bake->bake.date) + ", " + bake->bake.title + ": " + text,
                     "#bake-" + std::to_string(bake->bake.id.value),
                     charts::Interval(value.low, value.high)});
                data row = row_of(*bake, group.name);
                data cells{data::type::list};
                cells.push_back(cell(text));
                cells.push_back(cell(span_text(value.low, value.high, info.decimals)));
                row.set("cells", cells);
                rows.push_back(row);
            }
    return strip;
}

data question_data(const Question& question, const std::vector<journal::BakeEntry>& bakes,
                   const std::optional<insight::Usual>& usual) {
    const MeasureInfo& info = info_of(question.measure);
    data section;
    section.set("heading", std::string(question.heading));
    section.set("sentence", insight::answer(bakes, question, usual));
    charts::StripChart chart;
    chart.title = std::string(info.name) + " of every slice, by flour";
    chart.description = insight::answer(bakes, question, usual);
    chart.x = {std::string(info.name), raised(info.unit),
               question.measure == Measure::coarseness ? charts::AxisKind::ratio
                                                       : charts::AxisKind::number};
    data rows{data::type::list};
    for (const FlourGroup& group : flour_groups(bakes))
        chart.rows.push_back(strip_of(group, question.measure, rows));
    if (usual) {
        chart.borders = {usual->thirds[0], usual->thirds[1]};
        chart.words.assign(question.words.begin(), question.words.end());
    }
    data headings{data::type::list};
    headings.push_back(heading(std::string(info.name)));
    headings.push_back(heading("95 % interval"));
    section.set("headings", headings);
    section.set("has_chart", rows.is_non_empty_list());
    section.set("svg", charts::strip_svg(chart, charts::Embedding::in_page));
    section.set("rows", rows);
    return section;
}

// Openness from base to crown, a line a flour.
data where_data(const std::vector<journal::BakeEntry>& bakes) {
    data section;
    section.set("heading", std::string(insight::where_heading));
    section.set("sentence", insight::where_different(bakes));
    charts::ScatterChart chart;
    chart.title = "Openness from base to crown, by flour";
    chart.description = insight::where_different(bakes);
    chart.x = {"height within the loaf, base to crown", "%", charts::AxisKind::number};
    chart.y = {"openness, mean of slices", "", charts::AxisKind::number};
    data rows{data::type::list};
    for (const FlourGroup& group : flour_groups(bakes)) {
        charts::Series series{group.name, {}, {}};
        const auto profile = insight::mean_profile(group.bakes);
        if (profile) {
            data row;
            row.set("flour", group.name);
            data cells{data::type::list};
            for (std::size_t band = 0; band < profile->size(); ++band) {
                const double height = 10.0 * static_cast<double>(band) + 5;
                series.line.push_back({height, (*profile)[band], std::nullopt});
                // A mark here and there, so that lines are told apart by shape too.
                if ((band + chart.series.size()) % 3 == 1)
                    series.points.push_back({height, (*profile)[band], group.name});
                cells.push_back(cell(insight::fixed_text((*profile)[band], 2)));
            }
            row.set("cells", cells);
            rows.push_back(row);
        }
        chart.series.push_back(series);
    }
    data headings{data::type::list};
    for (int band = 0; band < 10; ++band)
        headings.push_back(heading(std::to_string(10 * band) + " %"));
    section.set("headings", headings);
    section.set("has_chart", rows.is_non_empty_list());
    section.set("svg", charts::scatter_svg(chart, charts::Embedding::in_page));
    section.set("rows", rows);
    return section;
}

data answer_data(const std::string& question, const std::string& words) {
    data one;
    one.set("question", question);
    one.set("words", words);
    return one;
}

}  // namespace

Usuals usuals_of(const std::vector<journal::BakeEntry>& journal) {
    Usuals usuals;
    for (std::size_t i = 0; i < usuals.size(); ++i)
        usuals[i] = insight::usual_of(journal, insight::questions[i].measure);
    return usuals;
}

data questions_data(const std::vector<journal::BakeEntry>& bakes, const Usuals& usuals) {
    data list{data::type::list};
    for (std::size_t i = 0; i < usuals.size(); ++i)
        list.push_back(question_data(insight::questions[i], bakes, usuals[i]));
    list.push_back(where_data(bakes));
    return list;
}

data answers_data(const journal::Reading& reading, const Usuals& usuals) {
    data list{data::type::list};
    for (std::size_t i = 0; i < usuals.size(); ++i)
        if (const auto words = insight::answer(reading, insight::questions[i], usuals[i]))
            list.push_back(answer_data(std::string(insight::questions[i].heading), *words));
    if (const auto words = insight::where_different(reading))
        list.push_back(answer_data(std::string(insight::where_heading), *words));
    return list;
}

}  // namespace loafmark::reports
