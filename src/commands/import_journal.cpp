#include "commands/import_journal.h"

#include <ostream>

#include "commands/export_journal.h"
#include "commands/failure.h"
#include "commands/files.h"
#include "commands/help_text.h"
#include "commands/options.h"
#include "commands/text.h"
#include "documents/text_table.h"

namespace loafmark::commands {
namespace {

journal::OnConflict parse_on_conflict(const std::string& text) {
    if (text == "mine") return journal::OnConflict::keep_mine;
    if (text == "theirs") return journal::OnConflict::take_theirs;
    throw std::runtime_error("'" + text + "' is neither mine nor theirs");
}

journal::OnSameName parse_on_same_name(const std::string& text) {
    if (text == "same") return journal::OnSameName::same_thing;
    if (text == "apart") return journal::OnSameName::keep_apart;
    throw std::runtime_error("'" + text + "' is neither same nor apart");
}

std::string shown_column(std::string column) {
    for (char& c : column)
        if (c == '_') c = ' ';
    return column;
}

std::string conflicts_table(const std::vector<journal::Conflict>& conflicts) {
    std::vector<std::vector<std::string>> rows;
    for (const journal::Conflict& one : conflicts)
        rows.push_back(one.same_name
                           ? std::vector<std::string>{one.thing, "two of this name", "", ""}
                           : std::vector<std::string>{one.thing, shown_column(one.column), one.mine,
                                                      one.theirs});
    return documents::text_table({{"what"}, {"where they differ"}, {"mine"}, {"theirs"}}, rows);
}

// Why nothing was done, and by which options it can be.
[[noreturn]] void refuse(const ImportOptions& options, const journal::Merged& merged,
                         const Context& context) {
    context.out << conflicts_table(merged.conflicts);
    bool names = false;
    bool values = false;
    for (const journal::Conflict& one : merged.conflicts)
        (one.same_name ? names : values) = true;
    names = names && options.choices.on_same_name == journal::OnSameName::refuse;
    values = values && options.choices.on_conflict == journal::OnConflict::refuse;
    std::string remedy;
    if (values) remedy = "say whose to keep with --conflicts mine or --conflicts theirs";
    if (names)
        remedy += std::string(remedy.empty() ? "" : "; ") +
                  "say with --names same that things of one name are one thing, or with --names "
                  "apart that they are two";
    throw Failure(options.document.string() +
                      " and the journal do not tell the same, as listed; nothing was done",
                  remedy);
}

std::string counts_text(const journal::CountsByTable& counts) {
    std::string text;
    for (const auto& [table, count] : counts)
        text += (text.empty() ? "" : ", ") + std::to_string(count) + " " + shown_column(table);
    return text;
}

}  // namespace

CLI::App& add_import(CLI::App& parent, ImportOptions& options) {
    CLI::App& app = add_command(
        parent, "import", "takes in a journal that was exported",
        "Takes in what `loafmark export` wrote, of this kitchen or another: the whole of it or, "
        "where\n"
        "something is in the way, nothing. What is here already is left as it is, so that a "
        "second\n"
        "import changes nothing. Where both tell a thing differently, that is listed, and you say\n"
        "whose to keep. `loafmark undo` takes an import back. Bakes from a notebook or a\n"
        "spreadsheet are read by `loafmark bake read`.");
    app.footer(
        "Examples:\n"
        "  loafmark import journal.json\n"
        "  loafmark import annas.json --names apart --conflicts mine");
    app.add_option("FILE", options.document, "the JSON document")->required();
    app.add_option("--photos", options.photos, "where its photos lie (else FILE-photos beside it)")
        ->type_name("DIR");
    add_value(app, "--conflicts", options.choices.on_conflict, parse_on_conflict, "mine",
              "where both tell a thing differently: keep mine, or take theirs");
    add_value(app, "--names", options.choices.on_same_name, parse_on_same_name, "same",
              "another flour or formula of a name that is taken: the same\n"
              "one, or kept apart under a longer name");
    return app;
}

Outcome run(const ImportOptions& options, journal::Journal& journal, const Context& context) {
    const std::string text = read_file(options.document);
    const auto photos = options.photos.value_or(photos_beside(options.document));
    journal::Merged merged;
    try {
        merged = journal.merge(text, photos, options.choices);
    } catch (const journal::Error& error) {
        throw Failure(options.document.string() + ": " + error.what(),
                      "nothing was taken in; put that right, or export it again");
    }
    if (!merged.done) refuse(options, merged, context);
    if (merged.added.empty() && merged.changed.empty() && merged.photos == 0)
        context.out << "Nothing new: all of it is here already.\n";
    if (!merged.added.empty()) context.out << "Added: " << counts_text(merged.added) << "\n";
    if (!merged.changed.empty())
        context.out << "Changed to theirs: " << counts_text(merged.changed) << "\n";
    if (merged.photos > 0) context.out << "Photos: " << merged.photos << "\n";
    for (const std::string& renamed : merged.renamed)
        context.out << "Kept apart: " << renamed << "\n";
    if (!merged.conflicts.empty())
        context.out << "Told differently:\n" << conflicts_table(merged.conflicts);
    if (!merged.missing_photos.empty())
        context.out << counted(merged.missing_photos.size(), "photo was", "photos were")
                    << " not in " << photos.string()
                    << ": their bakes are here without them. To bring them, export with --photos "
                       "DIR and import again with --photos DIR.\n";
    return Outcome::done;
}

}  // namespace loafmark::commands
