#include "commands/bake_edit.h"

#include <algorithm>
#include <ostream>

#include "arithmetic/near_names.h"
#include "commands/bake_text.h"
#include "commands/help_text.h"
#include "commands/named.h"
#include "commands/options.h"
#include "commands/words.h"
#include "journal/amounts.h"

namespace loafmark::commands {
namespace {

std::vector<journal::MixedAmount> put_right(std::vector<journal::MixedAmount> mixed,
                                            const std::vector<NamedMass>& with) {
    for (const NamedMass& weighed : with) {
        const auto amount = std::ranges::find_if(
            mixed, [&](const auto& known) { return folded(known.name) == folded(weighed.name); });
        if (amount == mixed.end())
            throw UsageError("--with names '" + weighed.name + "', which the bake has not",
                             "loafmark bake show lists what was mixed");
        amount->mass = weighed.mass;
    }
    return mixed;
}

journal::BakeChange change_of(const BakeEditOptions& options, const journal::BakeEntry& before) {
    journal::BakeChange change;
    change.title = options.title;
    change.dough_temperature = options.facts.dough_temperature;
    change.room_temperature = options.facts.room;
    change.handling = options.facts.handling;
    change.notes = options.facts.note;
    change.facts = options.facts.facts;
    if (options.with.empty()) return change;
    change.mixed = put_right(before.bake.mixed, options.with);
    const auto figures = figures_of(journal::parts_of(*change.mixed));
    ask_about_hydration(figures ? std::optional(figures->hydration) : std::nullopt, options.sure);
    return change;
}

bool changes_a_loaf(const journal::LoafChange& change) {
    return change.tin || change.free_form || change.dough_mass || change.baked_mass ||
           change.facts != journal::LoafFacts{};
}

}  // namespace

CLI::App& add_bake_edit(CLI::App& bake, BakeEditOptions& options) {
    CLI::App& app = add_command(
        bake, "edit", "fills in or corrects what is known of a bake",
        "Changes what you name and nothing else. Of several loaves, say which with --loaf.");
    app.footer(
        "Examples:\n"
        "  loafmark bake edit last --baked 790g --weighed-after 1h --core 96C\n"
        "  loafmark bake edit last --loaf 2 --baked 802g --dent slowly\n"
        "  loafmark bake edit '20 November' --with water=340g --handling slack");
    add_value(app, "BAKE", options.bake, plain_text, "",
              "last, a date, a number, part of its title")
        ->required();
    add_value(app, "--title", options.title, plain_text, "TEXT", "what to call it");
    add_repeated(app, "--with", options.with, parse_named_mass, "water=340g",
                 "what was truly weighed; may be repeated")
        ->group("The dough");
    app.add_flag("--sure", options.sure, "so dry or so wet a dough is meant")->group("The dough");
    add_dough_facts_options(app, options.facts);
    const std::string group = "The loaves";
    add_value(
        app, "--loaf", options.loaf,
        [](const std::string& text) { return parse_count(text, 1, "no loaf's number"); }, "2",
        "which loaf (1 unless said)")
        ->group(group);
    journal::LoafChange& loaf = options.loaf_change;
    add_value(app, "--tin", loaf.tin, plain_text, "NAME", "the tin")->group(group);
    add_value(app, "--scaled", loaf.dough_mass, read_mass, "900g", "its dough as scaled")
        ->group(group);
    add_value(app, "--baked", loaf.baked_mass, read_mass, "820g", "what it weighs baked")
        ->group(group);
    add_loaf_facts_options(app, loaf.facts);
    return app;
}

Outcome run(const BakeEditOptions& options, journal::Journal& journal, const Context& context) {
    const journal::BakeEntry before = named_bake(journal, options.bake, context.today);
    const journal::BakeId id = before.bake.id;
    const bool loaf_too = options.loaf || changes_a_loaf(options.loaf_change);
    const int number = options.loaf.value_or(1);
    if (loaf_too && number > static_cast<int>(before.loaves.size()))
        throw Failure("bake " + std::to_string(id.value) + " has no loaf " + std::to_string(number),
                      "it has " + std::to_string(before.loaves.size()));
    journal::BakeEntry after = journal.change_bake(id, change_of(options, before));
    if (loaf_too) after = journal.change_loaf(id, number, options.loaf_change);
    context.out << bake_text(after, degrees_of(journal.kitchen().facts));
    return Outcome::done;
}

}  // namespace loafmark::commands
