#include "commands/steady.h"

#include <ostream>

#include "commands/help_text.h"
#include "commands/measure_name.h"
#include "commands/options.h"
#include "documents/steady_document.h"
#include "insight/reading_notes.h"

namespace loafmark::commands {

CLI::App& add_steady(CLI::App& parent, SteadyOptions& options) {
    CLI::App& app = add_command(
        parent, "steady", "how far repeats lie apart, and whether something moved",
        "Shows how far repeats of one recipe lie apart in this kitchen, the measure of all\n"
        "comparisons: between days, between doughs of a day, between loaves of a dough and "
        "between\n"
        "slices of a loaf, each with its degrees of freedom (df), or that it cannot be told. Then "
        "the\n"
        "loaf that is baked most often, day by day, with limits from its own scatter: a run of "
        "eight on\n"
        "one side says that kitchen, starter or flour moved. And whether the newest bag of its "
        "flour\n"
        "bakes as the bags before. Bake one loaf now and then, always the same, to feed all "
        "three.");
    app.footer(
        "Examples:\n"
        "  loafmark steady\n"
        "  loafmark steady openness --formula country\n"
        "  loafmark steady loaf_height --since '1 March' --json");
    add_value(app, "MEASURE", options.measure, parse_measure, "",
              "what to look at (loaf_height unless said)");
    app.add_flag("--with-ends", options.with_ends, "take in slices cut at an end of the loaf, too");
    app.add_flag("--json", options.json, "one JSON document instead of text");
    add_filter_options(app, options.filter);
    return app;
}

Outcome run(const SteadyOptions& options, const journal::Journal& journal, const Context& context) {
    const auto bakes = journal.find(filter_of(options.filter, journal, context));
    const auto ends =
        options.with_ends ? insight::EndSlices::taken_in : insight::EndSlices::left_out;
    insight::ReadingNotes notes;
    for (const journal::BakeEntry& bake : bakes)
        if (!bake.bake.set_aside) notes.add(bake);
    const documents::SteadyFindings findings{insight::steadiness_of(bakes, options.measure, ends),
                                             insight::find_drift(bakes, options.measure, ends),
                                             insight::judge_new_bag(bakes, options.measure, ends),
                                             notes.all()};
    context.out << (options.json ? documents::steady_document(findings)
                                 : documents::steady_text(findings));
    return Outcome::done;
}

}  // namespace loafmark::commands
