#include "reports/crumb_map.h"

#include <cmath>

#include "charts/chart.h"
#include "insight/bake_values.h"
#include "reports/flour_groups.h"
#include "reports/plain_words.h"

namespace loafmark::reports {
namespace {

using kainjow::mustache::data;

struct Dot {
    Estimate coarseness;
    Estimate openness;
};

std::optional<Estimate> value_of(const journal::Reading& reading, Measure measure) {
    const auto found = reading.values.find(measure);
    if (found == reading.values.end() || !std::isfinite(found->second.value)) return std::nullopt;
    return found->second;
}

std::optional<Dot> dot_of(const journal::SliceEntry& slice) {
    if (!slice.reading || insight::is_poor(*slice.reading)) return std::nullopt;
    const auto x = value_of(*slice.reading, Measure::coarseness);
    const auto y = value_of(*slice.reading, Measure::openness);
    return x && y ? std::optional(Dot{*x, *y}) : std::nullopt;
}

// "1.10 mm", and its interval small below.
void set_value(data& row, const std::string& key, const Estimate& value, Measure measure) {
    const MeasureInfo& info = info_of(measure);
    row.set(key, value_text(value.value, info));
    row.set(key + "_interval", span_text(value.low, value.high, info.decimals));
}

data row_of(const journal::BakeEntry& bake, const std::string& flour, const Dot& dot) {
    data row;
    row.set("flour", flour);
    row.set("bake_id", std::to_string(bake.bake.id.value));
    row.set("date", long_date(bake.bake.date));
    row.set("bake_title", bake.bake.title);
    set_value(row, "coarseness", dot.coarseness, Measure::coarseness);
    set_value(row, "openness", dot.openness, Measure::openness);
    return row;
}

charts::ScatterPoint mark_of(const journal::BakeEntry& bake, const journal::SliceEntry& slice,
                             const Dot& dot) {
    return {.x = dot.coarseness.value,
            .y = dot.openness.value,
            .note = long_date(bake.bake.date) + ", " + bake.bake.title + ": coarseness " +
                    value_text(dot.coarseness.value, info_of(Measure::coarseness)) + ", openness " +
                    value_text(dot.openness.value, info_of(Measure::openness)),
            .link = "#bake-" + std::to_string(bake.bake.id.value),
            .id = mark_id(slice),
            .x_interval = charts::Interval(dot.coarseness.low, dot.coarseness.high),
            .y_interval = charts::Interval(dot.openness.low, dot.openness.high)};
}

}  // namespace

void set_crumb_map(data& page, const std::vector<journal::BakeEntry>& bakes) {
    charts::ScatterChart chart;
    chart.title = "Crumb map";
    chart.description = "Coarseness across, openness up, one mark a slice.";
    chart.x = {"coarseness", "mm", charts::AxisKind::ratio};
    chart.y = {"openness", "", charts::AxisKind::number};
    data rows{data::type::list};
    for (const FlourGroup& group : flour_groups(bakes)) {
        charts::Series series{group.name, {}, {}};
        for (const journal::BakeEntry* bake : group.bakes)
            for (const journal::LoafEntry& loaf : bake->loaves)
                for (const journal::SliceEntry& slice : loaf.slices) {
                    const auto dot = dot_of(slice);
                    if (!dot) continue;
                    series.points.push_back(mark_of(*bake, slice, *dot));
                    rows.push_back(row_of(*bake, group.name, *dot));
                }
        // A flour without a mark keeps its place, so that the others keep their colours.
        chart.series.push_back(std::move(series));
    }
    page.set("has_crumb_map", rows.is_non_empty_list());
    page.set("crumb_map", charts::scatter_svg(chart, charts::Embedding::in_page));
    page.set("crumb_map_rows", rows);
}

bool is_on_the_map(const journal::BakeEntry& bake, const journal::SliceEntry& slice) {
    return !bake.bake.set_aside && dot_of(slice).has_value();
}

std::string mark_id(const journal::SliceEntry& slice) {
    return "mark-" + std::to_string(slice.slice.id.value);
}

}  // namespace loafmark::reports
