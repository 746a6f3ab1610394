#include "commands/flour.h"

#include <nlohmann/json.hpp>
#include <ostream>

#include "arithmetic/near_names.h"
#include "arithmetic/quantities.h"
#include "commands/help_text.h"
#include "commands/named.h"
#include "commands/options.h"
#include "commands/text.h"
#include "documents/text_table.h"

namespace loafmark::commands {
namespace {

journal::ProteinBasis parse_basis(const std::string& text) {
    using enum journal::ProteinBasis;
    for (const auto basis : {pack_eu, pack_us, mill_14_percent_moisture, dry})
        if (text == basis_name(basis)) return basis;
    throw std::runtime_error("'" + text +
                             "' is no basis; write pack_eu, pack_us, mill_14_percent_moisture or "
                             "dry");
}

nlohmann::ordered_json text_or_null(const std::optional<std::string>& text) {
    return text ? nlohmann::ordered_json(*text) : nlohmann::ordered_json(nullptr);
}

nlohmann::ordered_json flour_json(const journal::Flour& flour) {
    nlohmann::ordered_json json;
    json["id"] = flour.id.value;
    json["name"] = flour.name;
    json["grain"] = text_or_null(flour.grain);
    json["grade"] = text_or_null(flour.grade);
    json["mill"] = text_or_null(flour.mill);
    json["protein_percent"] = nullptr;
    if (flour.protein) json["protein_percent"] = percent(*flour.protein);
    json["protein_basis"] = nullptr;
    if (flour.protein_basis) json["protein_basis"] = basis_name(*flour.protein_basis);
    json["notes"] = text_or_null(flour.notes);
    return json;
}

std::string flours_document(const std::vector<journal::Flour>& flours) {
    nlohmann::ordered_json document{{"schema", 1}, {"flours", nlohmann::ordered_json::array()}};
    for (const journal::Flour& flour : flours)
        document["flours"].push_back(flour_json(flour));
    return document.dump(2) + "\n";
}

journal::Flour added(const journal::NewFlour& flour, journal::Journal& journal) {
    for (const journal::Flour& known : journal.flours())
        if (folded(known.name) == folded(flour.name))
            throw Failure(
                "there is a flour '" + known.name + "' already",
                "choose another name, or see it with loafmark flour show '" + known.name + "'");
    return journal.add_flour(flour);
}

std::string protein_text(const journal::Flour& flour) {
    if (!flour.protein) return nothing_text;
    std::string text = percent_text(flour.protein);
    if (flour.protein_basis) text += " (" + std::string(basis_name(*flour.protein_basis)) + ")";
    return text;
}

}  // namespace

CLI::App& add_flour(CLI::App& parent) {
    CLI::App& app = add_command(
        parent, "flour", "flours: add, list, show",
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
        "pack_eu");
    journal::NewFlour& into = options.flour;
    add_value(app, "NAME", into.name, plain_text, "", "its name")->required();
    add_value(app, "--grain", into.grain, plain_text, "emmer", "wheat, emmer, rye...");
    add_value(app, "--grade", into.grade, plain_text, "wholemeal", "white, brown, wholemeal...");
    add_value(app, "--mill", into.mill, plain_text, "MILL", "who milled it");
    auto* protein = add_value(
        app, "--protein", into.protein,
        [](const std::string& text) { return parse_percentage(text); }, "12.5%",
        "typical protein content");
    add_value(app, "--protein-basis", into.protein_basis, parse_basis, "BASIS",
              "how it is stated: pack_eu, pack_us,\nmill_14_percent_moisture or dry")
        ->needs(protein);
    add_value(app, "--note", into.notes, plain_text, "TEXT", "anything else");
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
    const journal::Flour flour = added(options.flour, journal);
    context.out << "Added flour '" << flour.name << "'.\n";
    return Outcome::done;
}

Outcome run(const FlourListOptions& options, const journal::Journal& journal,
            const Context& context) {
    const std::vector<journal::Flour> flours = journal.flours();
    if (options.json) {
        context.out << flours_document(flours);
    } else if (flours.empty()) {
        context.out << "No flours yet. Add one: loafmark flour add NAME\n";
    } else {
        std::vector<std::vector<std::string>> rows;
        for (const journal::Flour& flour : flours)
            rows.push_back({flour.name, or_nothing(flour.grain), or_nothing(flour.grade),
                            or_nothing(flour.mill), percent_text(flour.protein)});
        context.out << documents::text_table(
            {{"flour"}, {"grain"}, {"grade"}, {"mill"}, {"protein", documents::Align::right}},
            rows);
    }
    return Outcome::done;
}

Outcome run(const FlourShowOptions& options, const journal::Journal& journal,
            const Context& context) {
    const journal::Flour flour = named_flour(journal, options.name);
    if (options.json) {
        context.out << flours_document({flour});
        return Outcome::done;
    }
    context.out << documents::text_table({{flour.name}, {""}},
                                         {{"grain", or_nothing(flour.grain)},
                                          {"grade", or_nothing(flour.grade)},
                                          {"mill", or_nothing(flour.mill)},
                                          {"protein", protein_text(flour)},
                                          {"notes", or_nothing(flour.notes)}});
    return Outcome::done;
}

}  // namespace loafmark::commands
