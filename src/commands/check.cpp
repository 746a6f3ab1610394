#include "commands/check.h"

#include <ostream>

#include "commands/help_text.h"

namespace loafmark::commands {

CLI::App& add_check(CLI::App& parent, CheckOptions& options) {
    CLI::App& app = add_command(
        parent, "check", "looks through the journal for damage",
        "Reads the whole database and every photo: whether each is what it was when it was filed,\n"
        "whether anything names what is not there, whether formulas still make 100 %. Exits with "
        "1\n"
        "where something is wrong that is not mended.");
    app.footer(
        "Examples:\n"
        "  loafmark check\n"
        "  loafmark check --mend");
    app.add_flag("--mend", options.mend, "put right what can be without losing anything");
    return app;
}

Outcome run(const CheckOptions& options, const OpenJournal& open, const Context& context) {
    const auto findings = options.mend ? open.to_write().mend() : open.to_read().check();
    bool wrong = false;
    for (const journal::Finding& finding : findings) {
        wrong = wrong || !(finding.harmless || finding.mended);
        context.out << (finding.mended     ? "mended: "
                        : finding.harmless ? "to know: "
                                           : "WRONG: ")
                    << finding.what;
        if (!finding.remedy.empty()) context.out << "; " << finding.remedy;
        context.out << "\n";
    }
    if (findings.empty())
        context.out << "The journal is whole: its database and every photo.\n";
    else if (!wrong)
        context.out << "Otherwise the journal is whole: its database and every photo.\n";
    return wrong ? Outcome::incomplete : Outcome::done;
}

}  // namespace loafmark::commands
