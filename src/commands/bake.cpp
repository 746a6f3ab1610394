#include "commands/bake.h"

#include <ostream>

#include "commands/bake_text.h"
#include "commands/help_text.h"
#include "commands/named.h"
#include "commands/options.h"
#include "documents/find_document.h"

namespace loafmark::commands {
Date past_date(const std::string& option, const std::string& text, Date today) {
    const Date date = reading_option(option, [&] { return parse_date(text, today); });
    if (date > today)
        throw UsageError(
            option + " '" + text + "' is still to come (today is " + to_text(today) + ")",
            "give the day of the bake, such as " + to_text(today));
    return date;
}

CLI::App& add_bake(CLI::App& parent) {
    CLI::App& app = add_command(
        parent, "bake", "bakes: add, list, show, edit, adjust, mark, read",
        "A bake is one dough, mixed and baked. BAKE is last, last-2, a date (2026-03-01, 3 March), "
        "a\n"
        "number or part of its title; if several fit they are listed.");
    app.footer(
        "Examples:\n"
        "  loafmark bake add --formula country --dough 900g --tin 'small tin'\n"
        "  loafmark bake add --like last --flour emmer\n"
        "  loafmark bake adjust last --to 68%\n"
        "  loafmark bake mark last shaped\n"
        "  loafmark bake show last");
    app.require_subcommand(1);
    return app;
}

CLI::App& add_bake_list(CLI::App& bake, BakeListOptions& options) {
    CLI::App& app = add_command(bake, "list", "lists the bakes",
                                "Lists all bakes by date. loafmark find chooses among them.");
    app.footer("Examples:\n  loafmark bake list\n  loafmark bake list --json");
    app.add_flag("--json", options.json, "one JSON document instead of a table");
    return app;
}

CLI::App& add_bake_show(CLI::App& bake, BakeShowOptions& options) {
    CLI::App& app = add_command(
        bake, "show", "shows one bake",
        "Shows a bake: what was mixed, its loaves, and what was measured on their slices.");
    app.footer(
        "Examples:\n  loafmark bake show last\n  loafmark bake show '20 November'\n"
        "  loafmark bake show emmer --json");
    add_value(app, "BAKE", options.bake, plain_text, "",
              "last, a date, a number, part of its title")
        ->required();
    app.add_flag("--json", options.json, "one JSON document instead of text");
    return app;
}

Outcome run(const BakeListOptions& options, const journal::Journal& journal,
            const Context& context) {
    const std::vector<journal::BakeEntry> bakes = journal.find();
    if (options.json)
        context.out << documents::find_document(bakes);
    else if (bakes.empty())
        context.out << "No bakes yet. Add one: loafmark bake add --help shows how\n";
    else
        context.out << bakes_table(bakes);
    return Outcome::done;
}

Outcome run(const BakeShowOptions& options, const journal::Journal& journal,
            const Context& context) {
    const journal::BakeEntry bake = named_bake(journal, options.bake, context.today);
    context.out << (options.json ? documents::find_document({bake})
                                 : bake_text(bake, degrees_of(journal.kitchen().facts)));
    return Outcome::done;
}

}  // namespace loafmark::commands
