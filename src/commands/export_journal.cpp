#include "commands/export_journal.h"

#include <ostream>
#include <sstream>

#include "commands/failure.h"
#include "commands/files.h"
#include "commands/help_text.h"
#include "commands/messages.h"
#include "commands/options.h"
#include "commands/text.h"
#include "documents/bakes_csv.h"
#include "documents/find_document.h"

namespace loafmark::commands {
namespace {

// To the file that was named, and says `what` went there; else to stdout, which then holds nothing
// besides.
void hand_over(const ExportOptions& options, const std::string& document, const std::string& what,
               const Context& context) {
    if (!options.output) {
        context.out << document;
        return;
    }
    write_file(*options.output, document);
    context.out << what << " written to " << options.output->string() << "\n";
}

}  // namespace

std::filesystem::path photos_beside(const std::filesystem::path& document) {
    return document.parent_path() / (document.stem().string() + "-photos");
}

CLI::App& add_export(CLI::App& parent, ExportOptions& options) {
    CLI::App& app = add_command(
        parent, "export", "writes the journal as JSON, or bakes or readings as CSV",
        "Writes everything that the journal holds as one JSON document, which `loafmark import`\n"
        "takes in again, here or in another kitchen. docs/database.md describes its fields. "
        "Photos\n"
        "are named by their hash; --photos copies them into a folder.\n"
        "--csv writes a table for spreadsheets instead: a row a loaf, or a row a slice. Texts "
        "that\n"
        "a spreadsheet would take for a formula are preceded by an apostrophe.");
    app.footer(
        "Examples:\n"
        "  loafmark export -o journal.json --photos journal-photos\n"
        "  loafmark export > journal.json\n"
        "  loafmark export --csv bakes -o bakes.csv\n"
        "  loafmark export --csv readings -o readings.csv");
    app.add_option("-o,--output", options.output,
                   "where to write, else on stdout; what stands there is\nreplaced")
        ->type_name("FILE");
    auto* photos =
        app.add_option("--photos", options.photos, "copy the photos into this folder, too")
            ->type_name("DIR");
    add_value(
        app, "--csv", options.csv,
        [](const std::string& text) {
            if (text != "bakes" && text != "readings")
                throw std::runtime_error("'" + text + "' is neither bakes nor readings");
            return text;
        },
        "bakes", "a table of bakes or of readings instead")
        ->excludes(photos);
    return app;
}

Outcome run(const ExportOptions& options, const journal::Journal& journal, const Context& context) {
    if (options.csv) {
        const auto bakes = journal.find();
        hand_over(
            options,
            *options.csv == "bakes" ? documents::bakes_csv(bakes) : documents::find_csv(bakes),
            counted(bakes.size(), "bake", "bakes"), context);
        return Outcome::done;
    }
    std::ostringstream json;
    const journal::ExportCounts counts = journal.export_to(json, options.photos);
    std::string what = counted(counts.things.at("bake"), "bake", "bakes") + ", " +
                       counted(counts.things.at("formula"), "formula", "formulas") + ", " +
                       counted(counts.things.at("flour"), "flour", "flours");
    if (options.photos)
        what += ", and to " + options.photos->string() + " " +
                counted(counts.photos, "photo", "photos") + ",";
    hand_over(options, json.str(), what, context);
    for (const std::string& photo : counts.missing_photos)
        context.err << stderr_line(
            "warning", "the photo " + photo + " is no longer there; loafmark check says more",
            colour_on_err(context));
    return counts.missing_photos.empty() ? Outcome::done : Outcome::incomplete;
}

}  // namespace loafmark::commands
