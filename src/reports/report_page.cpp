#include "reports/report_page.h"

#include <algorithm>
#include <cmath>
#include <kainjow/mustache.hpp>
#include <set>
#include <stdexcept>
#include <tuple>

#include "cautions/cautions.h"
#include "charts/chart.h"
#include "charts/svg_text.h"
#include "reports/bake_section.h"
#include "reports/crumb_map.h"
#include "reports/pictures.h"
#include "reports/plain_words.h"
#include "reports/questions_section.h"
#include "reports/shelf.h"
#include "reports/steady_section.h"
#include "reports/templates.h"
#include "reports/trend_section.h"
#include "reports/trial_section.h"

namespace loafmark::reports {
namespace {

using kainjow::mustache::data;
using kainjow::mustache::mustache;
using kainjow::mustache::partial;

ReportInput in_order_of_date(ReportInput input) {
    std::ranges::sort(input.bakes, {}, [](const journal::BakeEntry& bake) {
        return std::tuple(bake.bake.date, bake.bake.id);
    });
    return input;
}

std::string summary_of(const ReportInput& input) {
    if (input.bakes.empty()) return "A new journal.";
    std::set<journal::FlourId> flours;
    for (const journal::BakeEntry& bake : input.bakes)
        for (const journal::FlourShare& flour : bake.flours)
            flours.insert(flour.flour);
    std::string summary = counted(input.bakes.size(), "bake", "bakes");
    if (!flours.empty()) summary.append(" of ").append(counted(flours.size(), "flour", "flours"));
    const std::string first = long_date(input.bakes.front().bake.date);
    const std::string last = long_date(input.bakes.back().bake.date);
    summary.append(", ").append(first);
    if (first != last) summary.append(" to ").append(last);
    const auto set_aside = std::ranges::count_if(input.bakes, [](const journal::BakeEntry& bake) {
        return bake.bake.set_aside.has_value();
    });
    if (set_aside > 0)
        summary.append("; ")
            .append(std::to_string(set_aside))
            .append(" set aside: shown, but counted nowhere");
    if (input.bakes_in_bin > 0)
        summary.append("; ").append(std::to_string(input.bakes_in_bin)).append(" more in the bin");
    if (!input.chosen_by.empty()) summary.append("; chosen by ").append(input.chosen_by);
    return summary + ".";
}

std::string made_text(const ReportInput& input) {
    std::string text = "Made";
    if (!input.made_at.empty()) text.append(" ").append(input.made_at);
    if (!input.made_with.empty()) text.append(" with ").append(input.made_with);
    return text + ".";
}

// Once, at the page's end.
std::string cautions_text(const std::vector<journal::BakeEntry>& bakes) {
    std::vector<std::optional<std::string>> grains;
    for (const journal::BakeEntry& bake : bakes)
        for (const journal::FlourShare& flour : bake.flours)
            grains.push_back(flour.grain);
    std::string text = cautions::text_of("raw") + "\n" + cautions::of_grains(grains) +
                       cautions::text_of("no-proof");
    std::ranges::replace(text, '\n', ' ');
    return text;
}

// Each flour's bakes, flours by name.
data flour_index(const std::vector<journal::BakeEntry>& bakes) {
    std::map<std::pair<std::string, journal::FlourId>, data> by_flour;
    for (const journal::BakeEntry& bake : bakes)
        for (const journal::FlourShare& flour : bake.flours) {
            data line;
            line.set("bake_id", std::to_string(bake.bake.id.value));
            line.set("date", long_date(bake.bake.date));
            line.set("bake_title", bake.bake.title);
            line.set("share", percent_text(flour.share));
            by_flour.try_emplace({flour.name, flour.flour}, data::type::list)
                .first->second.push_back(line);
        }
    data index{data::type::list};
    for (const auto& [flour, lines] : by_flour) {
        data entry;
        entry.set("flour_name", flour.first);
        entry.set("flour_bakes", lines);
        index.push_back(entry);
    }
    return index;
}

data bakes_data(const ReportInput& input, const Usuals& usuals) {
    data bakes{data::type::list};
    for (const journal::BakeEntry& bake : input.bakes) {
        data one = bake_data(bake, input.pictures, usuals);
        one.set("tastings", tasted_data(input.tastings, {{bake.bake.id}}, {bake.bake.title}));
        bakes.push_back(one);
    }
    return bakes;
}

void set_partials(data& page) {
    const auto embedded = [](std::string_view text) {
        return data(partial([text] { return std::string(text); }));
    };
    page.set("style", embedded(style_template));
    page.set("bake", embedded(bake_template));
    page.set("trial", embedded(trial_template));
    page.set("tasted", embedded(tasted_template));
    page.set("first_steps", embedded(first_steps_template));
    page.set("shelf_slice", embedded(shelf_slice_template));
    page.set("img", data(img_partial()));
    page.set("ruler", data(ruler_partial()));
}

}  // namespace

std::string report_page(const ReportInput& unordered) {
    const ReportInput input = in_order_of_date(unordered);
    data page;
    set_partials(page);
    page.set("title", input.title);
    page.set("summary", summary_of(input));
    page.set("made", made_text(input));
    page.set("cautions", cautions_text(input.bakes));
    page.set("chart_style", charts::chart_style());
    page.set("widest_mm", std::to_string(static_cast<int>(std::ceil(widest_picture_mm(input)))));
    page.set("empty", input.bakes.empty());
    page.set("has_bakes", !input.bakes.empty());
    page.set("chosen", !input.chosen_by.empty());
    page.set("chosen_by", input.chosen_by);
    if (!input.bakes.empty()) {
        const Usuals usuals = usuals_of(input.journal_bakes());
        set_shelf(page, input);
        page.set("questions", questions_data(input.bakes, usuals));
        set_crumb_map(page, input.bakes);
        data trials = trials_data(input);
        page.set("has_trials", trials.is_non_empty_list());
        page.set("trials", trials);
        page.set("trends", trends_data(input.bakes));
        page.set("steady", steady_data(input.bakes));
        page.set("bakes", bakes_data(input, usuals));
        page.set("flours", flour_index(input.bakes));
    }
    mustache tmpl{std::string(page_template)};
    tmpl.set_custom_escape([](const std::string& text) { return charts::xml_escaped(text); });
    std::string html = tmpl.render(page);
    if (!tmpl.is_valid()) throw std::logic_error("report template: " + tmpl.error_message());
    return html;
}

}  // namespace loafmark::reports
