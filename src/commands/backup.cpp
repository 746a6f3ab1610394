#include "commands/backup.h"

#include <ostream>

#include "commands/failure.h"
#include "commands/help_text.h"
#include "commands/text.h"

namespace loafmark::commands {

CLI::App& add_backup(CLI::App& parent, BackupOptions& options) {
    CLI::App& app = add_command(
        parent, "backup", "writes the whole journal, photos too, into one file",
        "Writes the journal as it is at this moment into one new file, also while another program\n"
        "uses it. The file is a tar: loafmark.db, photos/ and SHA256SUMS; any tar unpacks it to a\n"
        "journal's folder. Keep it on another disk.");
    app.footer(
        "Examples:\n"
        "  loafmark backup /media/stick/bakes-2026-03-01.tar\n"
        "  loafmark restore /media/stick/bakes-2026-03-01.tar");
    app.add_option("FILE", options.file, "the new file; one that is there is not replaced")
        ->required();
    return app;
}

CLI::App& add_restore(CLI::App& parent, RestoreOptions& options) {
    CLI::App& app = add_command(
        parent, "restore", "puts the journal back to a backup",
        "Puts the journal back to what the file holds, once its sums show that it is whole. What "
        "the\n"
        "journal holds now is put aside first, in kept/ in its folder, and restores the same way.\n"
        "No photo is removed.");
    app.footer(
        "Examples:\n"
        "  loafmark restore bakes-2026-03-01.tar\n"
        "  loafmark --journal /tmp/look restore bakes-2026-03-01.tar   into another folder, to "
        "look");
    app.add_option("FILE", options.file, "a backup, or what a restore put aside")->required();
    return app;
}

Outcome run(const BackupOptions& options, const journal::Journal& journal, const Context& context) {
    try {
        const journal::BackupCounts counts = journal.back_up(options.file);
        context.out << options.file.string() << ": the journal with "
                    << counted(counts.photos, "photo", "photos") << ", "
                    << number_text(static_cast<double>(counts.bytes) / 1e6, 1) << " MB\n";
    } catch (const journal::Error& error) {
        throw Failure(error.what(), std::filesystem::exists(options.file)
                                        ? "name a new file; a backup never replaces one"
                                        : "loafmark check says what is wrong with the journal");
    }
    return Outcome::done;
}

Outcome run(const RestoreOptions& options, const JournalFolder& folder, const Context& context) {
    journal::Restored restored;
    try {
        restored = journal::Journal::restore(folder.path, options.file);
    } catch (const journal::Error& error) {
        throw Failure(error.what(), "the journal is as it was");
    }
    context.out << "The journal is as in " << options.file.string() << ": "
                << counted(restored.bakes, "bake", "bakes");
    if (restored.photos > 0)
        context.out << "; " << counted(restored.photos, "photo", "photos") << " brought back";
    context.out << "\n";
    if (restored.aside)
        context.out << "What stood there before is kept: " << restored.aside->string() << "\n";
    return Outcome::done;
}

}  // namespace loafmark::commands
