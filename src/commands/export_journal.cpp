#include "commands/export_journal.h"

#include <ostream>
#include <sstream>

#include "commands/failure.h"
#include "commands/files.h"
#include "commands/help_text.h"
#include "commands/messages.h"
#include "commands/options.h"
#include "documents/bakes_csv.h"
#include "documents/find_document.h"

namespace loafmark::commands {
namespace {

std::string counted(int n, const std::string& one, const std::string& many) {
    return std::to_string(n) + " " + (n == 1 ? one : many);
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
        "are named by their hash; --photos copies them beside it.\n"
        "--csv writes a table for spreadsheets instead: a row a loaf, or a row a slice. Texts "
        "that\n"
        "a spreadsheet would take for a formula are preceded by an apostrophe.");
    app.footer(
        "Examples:\n"
        "  loafmark export -o journal.json --photos\n"
        "  loafmark export --csv bakes -o bakes.csv\n"
        "  loafmark export --csv readings -o readings.csv");
    app.add_option("-o,--output", options.output, "where to write; what stands there is replaced")
        ->type_name("FILE")
        ->required();
    auto* photos = app.add_flag("--photos", options.photos,
                                "copy the photos into a folder beside it (FILE-photos)");
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
        write_file(options.output, *options.csv == "bakes" ? documents::bakes_csv(bakes)
                                                           : documents::find_csv(bakes));
        context.out << counted(static_cast<int>(bakes.size()), "bake", "bakes") << " written to "
                    << options.output.string() << "\n";
        return Outcome::done;
    }
    std::ostringstream json;
    const auto photos =
        options.photos ? std::optional(photos_beside(options.output)) : std::nullopt;
    const journal::ExportCounts counts = journal.export_to(json, photos);
    write_file(options.output, json.str());
    context.out << counted(counts.things.at("bake"), "bake", "bakes") << ", "
                << counted(counts.things.at("formula"), "formula", "formulas") << ", "
                << counted(counts.things.at("flour"), "flour", "flours") << " written to "
                << options.output.string();
    if (photos)
        context.out << ", " << counted(counts.photos, "photo", "photos") << " to "
                    << photos->string();
    context.out << "\n";
    for (const std::string& photo : counts.missing_photos)
        context.err << stderr_line(
            "warning", "the photo " + photo + " is no longer there; loafmark check says more",
            colour_on_err(context));
    return counts.missing_photos.empty() ? Outcome::done : Outcome::incomplete;
}

}  // namespace loafmark::commands
