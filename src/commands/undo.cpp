#include "commands/undo.h"

#include <ostream>

#include "commands/help_text.h"
#include "documents/text_table.h"

namespace loafmark::commands {

CLI::App& add_undo(CLI::App& parent, UndoOptions& options) {
    CLI::App& app = add_command(
        parent, "undo", "takes the last change back",
        "Takes back what the last command changed: a bake added or edited, a photo filed, "
        "something\n"
        "dropped, a whole import. Again and it takes back the one before, up to the last 20;\n"
        "`loafmark redo` makes it again. A photo file stays in the journal's folder.");
    app.footer(
        "Examples:\n"
        "  loafmark undo\n"
        "  loafmark undo --list");
    app.add_flag("--list", options.list, "only list what can be taken back, newest first");
    return app;
}

CLI::App& add_redo(CLI::App& parent, RedoOptions&) {
    CLI::App& app = add_command(parent, "redo", "makes again what undo took back",
                                "Makes again the change that `loafmark undo` took back last, until "
                                "something new\nis entered.");
    app.footer("Example:\n  loafmark redo");
    return app;
}

Outcome run(const UndoOptions& options, journal::Journal& journal, const Context& context) {
    if (!options.list) {
        const journal::Change change = journal.undo();
        context.out << "Taken back (of " << change.made_at << "): " << change.words << "\n";
        return Outcome::done;
    }
    std::vector<std::vector<std::string>> rows;
    for (const journal::Change& change : journal.changes())
        rows.push_back({change.made_at, change.words,
                        change.undone          ? "taken back"
                        : change.can_be_undone ? ""
                                               : "too large to be taken back"});
    if (rows.empty())
        context.out << "No change can be taken back.\n";
    else
        context.out << documents::text_table({{"when (UTC)"}, {"change"}, {""}}, rows);
    return Outcome::done;
}

Outcome run(const RedoOptions&, journal::Journal& journal, const Context& context) {
    const journal::Change change = journal.redo();
    context.out << "Made again (of " << change.made_at << "): " << change.words << "\n";
    return Outcome::done;
}

}  // namespace loafmark::commands
