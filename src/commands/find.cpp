#include "commands/find.h"

#include <ostream>

#include "commands/bake_text.h"
#include "commands/help_text.h"
#include "commands/options.h"
#include "commands/words.h"
#include "documents/find_document.h"

namespace loafmark::commands {

namespace {

journal::Order parse_order(const std::string& text) {
    const bool descending = text.starts_with('-');
    return {.key = text.substr(descending ? 1 : 0), .descending = descending};
}

}  // namespace

CLI::App& add_find(CLI::App& parent, FindOptions& options) {
    CLI::App& app = add_command(
        parent, "find", "finds past bakes",
        "Finds bakes by flour, water, day or anything that was measured, a line a slice. What is\n"
        "unknown of a bake fits no range. --sort takes date, number, title, or any measure or "
        "field of\n"
        "numbers; a minus before it sorts from the largest down.");
    app.footer(
        "Examples:\n"
        "  loafmark find --flour emmer --hydration 66..74\n"
        "  loafmark find --since '1 March' --where 'openness 0.3..' --where 'loaf_height 80..'\n"
        "  loafmark find --grain rye --csv > rye.csv\n"
        "  loafmark find --share 'emmer=50..' --sort -openness --limit 10\n"
        "  loafmark find --leaven starter --where 'core_temperature 96..' --where 'tin large'");
    add_filter_options(app, options.filter);
    const std::string group = "In which order, and how many";
    add_value(app, "--sort", options.order, parse_order, "-openness",
              "by what; - before it: the largest first")
        ->group(group);
    auto* limit = add_value(
        app, "--limit", options.limit,
        [](const std::string& text) { return parse_count(text, 1, "no number of bakes"); }, "50",
        "at most so many bakes");
    limit->group(group);
    add_value(
        app, "--page", options.page,
        [](const std::string& text) { return parse_count(text, 1, "no page"); }, "2",
        "the next so many, and so on")
        ->needs(limit)
        ->group(group);
    auto* json = app.add_flag("--json", options.json, "one JSON document instead of a table");
    app.add_flag("--csv", options.csv, "comma-separated values, for spreadsheets")->excludes(json);
    return app;
}

Outcome run(const FindOptions& options, const journal::Journal& journal, const Context& context) {
    journal::Filter filter = filter_of(options.filter, journal, context);
    filter.order = options.order;
    if (options.limit) {
        // One more than is shown tells whether there is a next page.
        filter.limit = static_cast<std::size_t>(*options.limit) + 1;
        filter.skip =
            static_cast<std::size_t>(options.page - 1) * static_cast<std::size_t>(*options.limit);
    }
    auto bakes = journal.find(filter);
    const bool more = options.limit && bakes.size() > static_cast<std::size_t>(*options.limit);
    if (more) bakes.pop_back();
    if (options.json)
        context.out << documents::find_document(bakes);
    else if (options.csv)
        context.out << documents::find_csv(bakes);
    else if (bakes.empty())
        context.out << "No bake fits.\n";
    else
        context.out << found_table(bakes)
                    << (more ? "More: --page " + std::to_string(options.page + 1) + "\n" : "");
    return Outcome::done;
}

}  // namespace loafmark::commands
