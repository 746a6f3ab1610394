#include "commands/bake.h"

#include <algorithm>
#include <ostream>

#include "arithmetic/near_names.h"
#include "arithmetic/quantities.h"
#include "commands/bake_text.h"
#include "commands/help_text.h"
#include "commands/messages.h"
#include "commands/named.h"
#include "commands/options.h"
#include "commands/text.h"
#include "documents/find_document.h"
#include "journal/amounts.h"

namespace loafmark::commands {
namespace {

Grams read_mass(const std::string& text) {
    return parse_mass(text);
}
Celsius read_temperature(const std::string& text) {
    return parse_temperature(text);
}

std::string parse_handling(const std::string& text) {
    const std::string word = folded(text);
    if (std::ranges::find(journal::handling_words, word) != journal::handling_words.end())
        return word;
    throw std::runtime_error("'" + text +
                             "' is no handling; write stiff, firm, supple, tacky, slack or pours");
}

int parse_loaves(const std::string& text) {
    const bool digits = !text.empty() && text.size() <= 3 &&
                        std::ranges::all_of(text, [](char c) { return c >= '0' && c <= '9'; });
    const int count = digits ? std::stoi(text) : 0;
    if (count < 1) throw std::runtime_error("'" + text + "' is no number of loaves; write 2");
    return count;
}

void weigh_otherwise(std::vector<journal::MixedAmount>& mixed, const NamedMass& weighed) {
    std::vector<std::string> names;
    for (journal::MixedAmount& amount : mixed) {
        if (folded(amount.name) == folded(weighed.name)) {
            amount.mass = weighed.mass;
            return;
        }
        names.push_back(amount.name);
    }
    std::string all;
    for (const std::string& name : names)
        all += (all.empty() ? "'" : ", '") + name + "'";
    const std::string near = did_you_mean(near_names(weighed.name, names, 2));
    throw UsageError("--with names '" + weighed.name + "', which the formula has not",
                     (near.empty() ? "" : near + " ") + "it has " + all);
}

// What went into the bowl: the formula's amounts, but for what was weighed otherwise.
std::vector<journal::MixedAmount> mixed_amounts(const BakeAddOptions& options,
                                                const journal::FormulaVersion& formula) {
    if (options.dough.has_value() == options.flour.has_value())
        throw UsageError("say how much dough or how much flour was mixed",
                         "write --dough 900g or --flour 500g");
    auto mixed = options.dough ? journal::amounts_for_dough(formula.ingredients, *options.dough)
                               : journal::amounts_for_flour(formula.ingredients, *options.flour);
    for (const NamedMass& weighed : options.with)
        weigh_otherwise(mixed, weighed);
    return mixed;
}

std::vector<journal::NewLoaf> loaves_of(const BakeAddOptions& options,
                                        const std::vector<journal::MixedAmount>& mixed) {
    const auto count = static_cast<std::size_t>(options.loaves);
    if (options.baked.size() > count)
        throw UsageError(
            "--baked is given " + std::to_string(options.baked.size()) + " times for " +
                std::to_string(count) + (count == 1 ? " loaf" : " loaves"),
            "say how many loaves there are with --loaves " + std::to_string(options.baked.size()));
    Grams dough{0};
    for (const journal::MixedAmount& amount : mixed)
        dough = dough + amount.mass;
    std::vector<journal::NewLoaf> loaves(count);
    for (std::size_t i = 0; i < count; ++i) {
        loaves[i].tin = options.tin;
        if (options.tin || options.free_form) loaves[i].free_form = options.free_form;
        loaves[i].dough_mass = dough / static_cast<double>(count);
        if (i < options.baked.size()) loaves[i].baked_mass = options.baked[i];
    }
    return loaves;
}

}  // namespace

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
        parent, "bake", "bakes: add, list, show",
        "A bake is one dough, mixed and baked. BAKE is last, last-2, a date (2026-03-01, 3 March), "
        "a\n"
        "number or part of its title; if several fit they are listed.");
    app.footer(
        "Examples:\n"
        "  loafmark bake add --formula country --dough 900g --tin 'small tin'\n"
        "  loafmark bake show last");
    app.require_subcommand(1);
    return app;
}

CLI::App& add_bake_add(CLI::App& bake, BakeAddOptions& options) {
    CLI::App& app = add_command(
        bake, "add", "adds a bake",
        "Adds a bake of a formula. What went into the bowl is the formula's amounts, except what\n"
        "you say was weighed otherwise; hydration as mixed follows from that.");
    app.footer(
        "Examples:\n"
        "  loafmark bake add --formula country --dough 900g --tin 'small tin' --baked 820g\n"
        "  loafmark bake add --formula country --date '20 November' --flour 500g \\\n"
        "      --with water=365g --free-form --handling slack\n"
        "  loafmark bake add --formula country --dough 1.8kg --loaves 2 --baked 815g --baked 822g");
    add_value(app, "--formula", options.formula, plain_text, "NAME",
              "its formula, or part of the name")
        ->required();
    add_value(app, "--date", options.date, plain_text, "2026-11-20", "the day (today unless said)");
    add_value(app, "--title", options.title, plain_text, "TEXT",
              "what to call it (the formula's name unless said)");
    const std::string mixing = "What was mixed";
    add_value(app, "--dough", options.dough, read_mass, "900g", "how much dough in all")
        ->group(mixing);
    add_value(app, "--flour", options.flour, read_mass, "500g", "or how much flour in all")
        ->group(mixing);
    add_repeated(app, "--with", options.with, parse_named_mass, "water=335g",
                 "an ingredient weighed otherwise than the\nformula asks; may be repeated")
        ->group(mixing);
    add_value(app, "--dough-temperature", options.dough_temperature, read_temperature, "25C",
              "of the dough after mixing")
        ->group(mixing);
    add_value(app, "--room", options.room, read_temperature, "21C", "the kitchen, that day")
        ->group(mixing);
    add_value(app, "--handling", options.handling, parse_handling, "WORD",
              "stiff, firm, supple, tacky, slack or pours")
        ->group(mixing);
    const std::string baking = "The loaves";
    add_value(app, "--loaves", options.loaves, parse_loaves, "2", "how many (1 unless said)")
        ->group(baking);
    auto* tin = add_value(app, "--tin", options.tin, plain_text, "NAME", "the tin")->group(baking);
    app.add_flag("--free-form", options.free_form, "baked without a tin")
        ->excludes(tin)
        ->group(baking);
    add_repeated(app, "--baked", options.baked, read_mass, "820g",
                 "what a baked loaf weighs; one for each")
        ->group(baking);
    add_value(app, "--note", options.note, plain_text, "TEXT", "anything else");
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

Outcome run(const BakeAddOptions& options, journal::Journal& journal, const Context& context) {
    journal::NewBake bake;
    bake.date = options.date ? past_date("--date", *options.date, context.today) : context.today;
    const journal::FormulaVersion formula = named_formula(journal, options.formula);
    bake.title = options.title;
    bake.formula_version = formula.id;
    bake.mixed = mixed_amounts(options, formula);
    bake.loaves = loaves_of(options, bake.mixed);
    bake.room_temperature = options.room;
    bake.dough_temperature = options.dough_temperature;
    bake.handling = options.handling;
    bake.notes = options.note;
    const journal::BakeEntry added = journal.add_bake(bake);
    context.out << "Added bake " << added.bake.id.value << ": " << to_text(added.bake.date) << " "
                << added.bake.title << ", hydration as mixed " << percent_text(added.hydration)
                << ".\n";
    return Outcome::done;
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
    context.out << (options.json ? documents::find_document({bake}) : bake_text(bake));
    return Outcome::done;
}

}  // namespace loafmark::commands
