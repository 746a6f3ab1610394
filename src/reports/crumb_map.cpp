#include "reports/crumb_map.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

#include "charts/chart.h"
#include "insight/bake_values.h"
#include "reports/plain_words.h"

namespace loafmark::reports {
namespace {

using kainjow::mustache::data;

std::optional<double> value_of(const journal::Reading& reading, Measure measure) {
    const auto found = reading.values.find(measure);
    if (found == reading.values.end() || !std::isfinite(found->second.value)) return std::nullopt;
    return found->second.value;
}

struct Dot {
    double coarseness = 0;
    double openness = 0;
};

// Poor readings are left out, as in every statistic; bakes set aside too.
std::optional<Dot> dot_of(const journal::BakeEntry& bake, const journal::SliceEntry& slice) {
    if (bake.bake.set_aside || !slice.reading || insight::is_poor(*slice.reading))
        return std::nullopt;
    const auto x = value_of(*slice.reading, Measure::coarseness);
    const auto y = value_of(*slice.reading, Measure::openness);
    return x && y ? std::optional(Dot{*x, *y}) : std::nullopt;
}

data row_of(const journal::BakeEntry& bake, const std::string& flour, const Dot& dot) {
    data row;
    row.set("flour", flour);
    row.set("bake_id", std::to_string(bake.bake.id.value));
    row.set("date", long_date(bake.bake.date));
    row.set("bake_title", bake.bake.title);
    row.set("coarseness", value_text(dot.coarseness, info_of(Measure::coarseness)));
    row.set("openness", value_text(dot.openness, info_of(Measure::openness)));
    return row;
}

}  // namespace

void set_crumb_map(data& page, const std::vector<journal::BakeEntry>& bakes) {
    std::map<std::string, charts::Series> by_flour;
    std::map<std::string, int> bakes_of;
    data rows{data::type::list};
    for (const journal::BakeEntry& bake : bakes) {
        const journal::FlourShare* main = insight::main_flour(bake);
        const std::string flour = main ? main->name : "flour not noted";
        if (!bake.bake.set_aside) ++bakes_of[flour];
        for (const journal::LoafEntry& loaf : bake.loaves)
            for (const journal::SliceEntry& slice : loaf.slices) {
                const auto dot = dot_of(bake, slice);
                if (!dot) continue;
                charts::Series& series = by_flour[flour];
                series.name = flour;
                std::string note = long_date(bake.bake.date);
                note.append(", ").append(bake.bake.title);
                series.points.push_back(
                    {dot->coarseness, dot->openness, note,
                     std::string("#bake-").append(std::to_string(bake.bake.id.value))});
                rows.push_back(row_of(bake, flour, *dot));
            }
    }
    charts::ScatterChart chart;
    chart.title = "Crumb map";
    chart.description = "Coarseness across, openness up, one dot a slice.";
    chart.x = {"coarseness", "mm", charts::AxisKind::number};
    chart.y = {"openness", "", charts::AxisKind::number};
    for (auto& [flour, series] : by_flour)
        chart.series.push_back(std::move(series));
    // As trends order their flours, so that a flour keeps its colour down the page.
    std::ranges::stable_sort(chart.series, {},
                             [&](const charts::Series& series) { return -bakes_of[series.name]; });
    page.set("has_crumb_map", rows.is_non_empty_list());
    page.set("crumb_map", charts::scatter_svg(chart, charts::Embedding::in_page));
    page.set("crumb_map_rows", rows);
}

}  // namespace loafmark::reports
