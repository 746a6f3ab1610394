#include "commands/trend.h"

#include <ostream>
#include <vector>

#include "arithmetic/near_names.h"
#include "commands/files.h"
#include "commands/help_text.h"
#include "commands/messages.h"
#include "commands/options.h"
#include "documents/trend_document.h"
#include "reports/trend_chart.h"

namespace loafmark::commands {
namespace {

Measure parse_measure(const std::string& text) {
    if (const auto measure = measure_of_key(text)) {
        if (info_of(*measure).state == MeasureState::built) return *measure;
        throw std::runtime_error("'" + text + "' is not measured yet; try openness");
    }
    std::vector<std::string> keys;
    for (const MeasureInfo& info : measure_catalogue)
        if (info.state == MeasureState::built) keys.emplace_back(info.key);
    const std::string near = did_you_mean(near_names(text, keys));
    throw std::runtime_error(
        "'" + text + "' is no measure; " +
        (near.empty() ? "write one such as openness, loaf_height or coarseness" : near));
}

insight::Against parse_against(const std::string& text) {
    if (const auto against = insight::against_of_name(text)) return *against;
    throw std::runtime_error("'" + text +
                             "' is not known; write hydration, date, share, protein, "
                             "dough-temperature or room-temperature");
}

}  // namespace

CLI::App& add_trend(CLI::App& parent, TrendOptions& options) {
    CLI::App& app = add_command(
        parent, "trend", "how a measure goes with water or time",
        "Shows how a measure goes with hydration, date, share of the main flour, protein or "
        "temperature,\n"
        "over the bakes of the journal, grouped by main flour, with a slope and its 95 % interval "
        "where\n"
        "the bakes give one, and where it peaks if it bends. Protein is compared within one grain "
        "and\n"
        "grade only. MEASURE is a key such as openness, loaf_height, coarseness, cells_per_cm2.");
    app.footer(
        "Examples:\n"
        "  loafmark trend openness --by hydration\n"
        "  loafmark trend loaf_height --by date --flour emmer\n"
        "  loafmark trend openness --by protein --grain wheat\n"
        "  loafmark trend coarseness --by hydration --svg coarseness.svg");
    add_value(app, "MEASURE", options.measure, parse_measure, "", "what to look at")->required();
    add_value(
        app, "--by", options.against, parse_against, "WHAT",
        "hydration (unless said), date, share, protein,\ndough-temperature or room-temperature");
    app.add_flag("--with-ends", options.with_ends, "take in slices cut at an end of the loaf, too");
    auto* json = app.add_flag("--json", options.json, "one JSON document instead of tables");
    app.add_flag("--csv", options.csv, "comma-separated values, a line a bake")->excludes(json);
    add_value(app, "--svg", options.svg, plain_text, "FILE", "write a chart too");
    add_filter_options(app, options.filter);
    return app;
}

Outcome run(const TrendOptions& options, const journal::Journal& journal, const Context& context) {
    journal::Filter filter = filter_of(options.filter, journal, context);
    const insight::TrendQuestion question{
        options.measure, options.against, filter.flour,
        options.with_ends ? insight::EndSlices::taken_in : insight::EndSlices::left_out,
        insight::kinds_of(journal.flours())};
    const insight::Trend trend = insight::find_trend(journal.find(filter), question);
    if (options.svg) write_file(*options.svg, reports::trend_svg(trend));
    if (options.json)
        context.out << documents::trend_document(trend);
    else if (options.csv)
        context.out << documents::trend_csv(trend);
    else
        context.out << documents::trend_table(trend);
    return Outcome::done;
}

}  // namespace loafmark::commands
