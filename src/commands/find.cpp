#include "commands/find.h"

#include <ostream>

#include "commands/bake_text.h"
#include "commands/help_text.h"
#include "commands/options.h"
#include "documents/find_document.h"

namespace loafmark::commands {

CLI::App& add_find(CLI::App& parent, FindOptions& options) {
    CLI::App& app = add_command(
        parent, "find", "finds past bakes",
        "Finds bakes by flour, water, day or anything that was measured, a line a slice. What is\n"
        "unknown of a bake fits no range.");
    app.footer(
        "Examples:\n"
        "  loafmark find --flour emmer --hydration 66..74\n"
        "  loafmark find --since '1 March' --where 'openness 0.3..' --where 'loaf_height 80..'\n"
        "  loafmark find --grain rye --csv > rye.csv");
    add_filter_options(app, options.filter);
    auto* json = app.add_flag("--json", options.json, "one JSON document instead of a table");
    app.add_flag("--csv", options.csv, "comma-separated values, for spreadsheets")->excludes(json);
    return app;
}

Outcome run(const FindOptions& options, const journal::Journal& journal, const Context& context) {
    const auto bakes = journal.find(filter_of(options.filter, journal, context));
    if (options.json)
        context.out << documents::find_document(bakes);
    else if (options.csv)
        context.out << documents::find_csv(bakes);
    else if (bakes.empty())
        context.out << "No bake fits.\n";
    else
        context.out << found_table(bakes);
    return Outcome::done;
}

}  // namespace loafmark::commands
