#include "commands/flour.h"

#include <ostream>

#include "arithmetic/near_names.h"
#include "commands/bag_text.h"
#include "commands/flour_text.h"
#include "commands/help_text.h"
#include "commands/named.h"
#include "commands/options.h"
#include "commands/words.h"
#include "insight/typical_flours.h"

namespace loafmark::commands {
namespace {

std::string kinds_in_a_row() {
    std::vector<std::string_view> kinds;
    for (const insight::TypicalFlour& typical : insight::typical_flours())
        kinds.push_back(typical.kind);
    return words_in_a_row(kinds);
}

// What is left open is filled with what is typical of the kind.
journal::NewFlour filled(journal::NewFlour flour, const std::string& kind) {
    const insight::TypicalFlour* const typical = insight::typical_flour(kind);
    if (typical == nullptr)
        throw UsageError("--typical '" + kind + "' is no kind known here",
                         "write " + kinds_in_a_row());
    if (!flour.grain) flour.grain = typical->grain;
    if (!flour.grade) flour.grade = typical->grade;
    if (!flour.protein) {
        flour.protein = typical->protein;
        flour.protein_basis = journal::ProteinBasis::pack_us;
        flour.protein_typical_of = typical->source;
        flour.moisture = typical->moisture;
        flour.ash = typical->ash;
        flour.fibre = typical->fibre;
    }
    return flour;
}

// The options that adding and editing share; `into` is a NewFlour or a FlourChange.
void add_facts(CLI::App& app, auto& into) {
    add_value(app, "--grain", into.grain, plain_text, "emmer", "wheat, emmer, rye...");
    add_value(app, "--grade", into.grade, plain_text, "wholemeal", "white, brown, wholemeal...");
    add_value(app, "--mill", into.mill, plain_text, "MILL", "who milled it");
    auto* protein =
        add_value(app, "--protein", into.protein, read_percentage, "12.5%", "its protein content");
    add_value(app, "--protein-basis", into.protein_basis, parse_basis, "BASIS",
              "how it is stated: pack_eu, pack_us,\nmill_14_percent_moisture or dry")
        ->needs(protein);
    add_value(app, "--moisture", into.moisture, read_percentage, "13.5%", "water in it");
    add_value(app, "--ash", into.ash, read_percentage, "0.55%", "ash in it");
    add_value(app, "--fibre", into.fibre, read_percentage, "3%", "fibre in it");
    add_value(app, "--note", into.notes, plain_text, "TEXT", "anything else");
}

journal::Flour added(const journal::NewFlour& flour, journal::Journal& journal) {
    for (const journal::Flour& known : journal.flours())
        if (folded(known.name) == folded(flour.name))
            throw Failure("there is a flour '" + known.name + "' already",
                          "choose another name, or see it with loafmark flour show '" + known.name +
                              "'; is it a new bag of it? loafmark bag add '" + known.name + "'");
    return journal.add_flour(flour);
}

}  // namespace

CLI::App& add_flour(CLI::App& parent) {
    CLI::App& app = add_command(
        parent, "flour", "flours: add, list, show, edit",
        "A flour is a kind that you buy again: its name, grain, grade, mill and typical protein.\n"
        "Formulas and bakes name flours, and trends are grouped by them.");
    app.footer(
        "Examples:\n"
        "  loafmark flour add 'Emmer wholemeal' --grain emmer --grade wholemeal --protein 13%\n"
        "  loafmark flour list");
    app.require_subcommand(1);
    return app;
}

CLI::App& add_flour_add(CLI::App& flour, FlourAddOptions& options) {
    CLI::App& app = add_command(flour, "add", "adds a flour",
                                "Adds a flour. What you do not know is left out, never guessed.");
    app.footer(
        "Examples:\n"
        "  loafmark flour add 'Emmer wholemeal' --grain emmer --grade wholemeal --mill 'Old Mill'\n"
        "  loafmark flour add 'Strong white' --grain wheat --protein 12.5% --protein-basis "
        "pack_eu\n"
        "  loafmark flour add 'Village white' --typical 'wheat bread'\n"
        "Kinds: " +
        kinds_in_a_row() +
        "\n(USDA National Nutrient Database SR26). Type numbers such as 550 tell ash, not "
        "strength;\nprotein is never guessed from them.");
    add_value(app, "NAME", options.flour.name, plain_text, "", "its name")->required();
    add_facts(app, options.flour);
    add_value(app, "--typical", options.typical, plain_text, "KIND",
              "fill in what is typical of its kind until you\nknow its own: 'wheat bread', 'rye "
              "dark'...");
    return app;
}

CLI::App& add_flour_edit(CLI::App& flour, FlourEditOptions& options) {
    CLI::App& app = add_command(
        flour, "edit", "corrects what is known of a flour",
        "Changes what you name and nothing else. A protein content typed here is the flour's own "
        "and\n"
        "takes the place of a typical one.");
    app.footer(
        "Examples:\n"
        "  loafmark flour edit 'Strong white' --protein 12.8% --protein-basis pack_eu\n"
        "  loafmark flour edit emmer --rename 'Emmer, Brook Mill'");
    add_value(app, "NAME", options.name, plain_text, "", "its name or part of it")->required();
    add_value(app, "--rename", options.change.name, plain_text, "NAME", "its new name");
    add_facts(app, options.change);
    return app;
}

CLI::App& add_flour_list(CLI::App& flour, FlourListOptions& options) {
    CLI::App& app =
        add_command(flour, "list", "lists the flours", "Lists the flours of the journal by name.");
    app.footer("Examples:\n  loafmark flour list\n  loafmark flour list --json");
    app.add_flag("--json", options.json, "one JSON document instead of a table");
    return app;
}

CLI::App& add_flour_show(CLI::App& flour, FlourShowOptions& options) {
    CLI::App& app =
        add_command(flour, "show", "shows one flour",
                    "Shows all that the journal knows of one flour. Part of its name will do.");
    app.footer("Examples:\n  loafmark flour show emmer\n  loafmark flour show emmer --json");
    add_value(app, "NAME", options.name, plain_text, "", "its name or part of it")->required();
    app.add_flag("--json", options.json, "one JSON document instead of text");
    return app;
}

Outcome run(const FlourAddOptions& options, journal::Journal& journal, const Context& context) {
    const journal::Flour flour =
        added(options.typical ? filled(options.flour, *options.typical) : options.flour, journal);
    context.out << "Added flour '" << flour.name << "'.\n";
    return Outcome::done;
}

Outcome run(const FlourEditOptions& options, journal::Journal& journal, const Context& context) {
    const journal::Flour before = named_flour(journal, options.name);
    const journal::Flour flour = journal.change_flour(before.id, options.change);
    context.out << flour_text(flour, journal.bags(flour.id), context.today);
    return Outcome::done;
}

Outcome run(const FlourListOptions& options, const journal::Journal& journal,
            const Context& context) {
    const std::vector<journal::Flour> flours = journal.flours();
    if (options.json)
        context.out << flours_document(flours);
    else if (flours.empty())
        context.out << "No flours yet. Add one: loafmark flour add --help shows how\n";
    else
        context.out << flours_table(flours);
    return Outcome::done;
}

Outcome run(const FlourShowOptions& options, const journal::Journal& journal,
            const Context& context) {
    const journal::Flour flour = named_flour(journal, options.name);
    context.out << (options.json ? flours_document({flour})
                                 : flour_text(flour, journal.bags(flour.id), context.today));
    return Outcome::done;
}

}  // namespace loafmark::commands
