#include "commands/bag.h"

#include <ostream>

#include "arithmetic/quantities.h"
#include "commands/bag_text.h"
#include "commands/failure.h"
#include "commands/help_text.h"
#include "commands/loaves_left.h"
#include "commands/named.h"
#include "commands/options.h"
#include "commands/text.h"
#include "commands/words.h"

namespace loafmark::commands {
namespace {

void add_facts(CLI::App& app, BagFactsTyped& into) {
    journal::BagFacts& facts = into.facts;
    add_value(app, "--mass", facts.bought_mass, read_mass, "5kg", "how much was bought");
    add_value(app, "--left", facts.left, read_mass, "1.2kg", "what it holds now, as weighed");
    add_value(app, "--lot", facts.lot, plain_text, "L2231", "the lot on the pack");
    add_value(app, "--bought", into.bought, plain_text, "2026-02-20", "the day it was bought");
    add_value(app, "--milled", into.milled, plain_text, "2026-02-01", "the day it was milled");
    add_value(app, "--best-before", into.best_before, plain_text, "2026-09-01",
              "the date on the pack");
    add_value(app, "--opened", into.opened, plain_text, "today", "the day it was opened");
    add_value(app, "--protein", facts.protein, read_percentage, "12.5%", "its own protein content");
    add_value(app, "--protein-basis", facts.protein_basis, parse_basis, "BASIS",
              "how it is stated: pack_eu, pack_us,\nmill_14_percent_moisture or dry");
    add_value(app, "--price", facts.price, plain_text, "'4.20 EUR'", "what it cost");
    add_value(app, "--note", facts.notes, plain_text, "TEXT", "anything else");
}

std::optional<Date> day(const std::string& option, const std::optional<std::string>& text,
                        Date today) {
    if (!text) return std::nullopt;
    return reading_option(option, [&] { return parse_date(*text, today); });
}

journal::BagFacts facts_of(const BagFactsTyped& typed, Date today) {
    journal::BagFacts facts = typed.facts;
    facts.bought = day("--bought", typed.bought, today);
    facts.best_before = day("--best-before", typed.best_before, today);
    facts.opened = day("--opened", typed.opened, today);
    facts.milled = day("--milled", typed.milled, today);
    for (const auto& [option, date] :
         {std::pair{"--bought", facts.bought}, std::pair{"--opened", facts.opened},
          std::pair{"--milled", facts.milled}})
        if (date && *date > today)
            throw UsageError(std::string(option) + " " + to_text(*date) +
                                 " is still to come (today is " + to_text(today) + ")",
                             "give the day, or leave it out");
    return facts;
}

journal::BagId bag_id(int number) {
    return journal::BagId{number};
}

}  // namespace

CLI::App& add_bag(CLI::App& parent) {
    CLI::App& app = add_command(
        parent, "bag", "bags of flour and stock: add, list, edit",
        "A bag is one purchase of a flour. Each bake draws on bags: the oldest open one of its "
        "flour,\n"
        "unless it says --bag. What is left follows, and can be put right by weighing.");
    app.footer(
        "Examples:\n"
        "  loafmark bag add 'Strong white' --mass 5kg --best-before 2026-09-01\n"
        "  loafmark bag list\n"
        "  loafmark bag edit 3 --left 1.2kg");
    app.require_subcommand(1);
    return app;
}

CLI::App& add_bag_add(CLI::App& bag, BagAddOptions& options) {
    CLI::App& app = add_command(
        bag, "add", "adds a bag of a flour",
        "Adds a bag. Its own protein content, where the pack gives one, goes before the flour's.\n"
        "What you do not know is left out.");
    app.footer(
        "Examples:\n"
        "  loafmark bag add 'Strong white' --mass 5kg\n"
        "  loafmark bag add emmer --mass 1kg --lot L77 --best-before 2026-09-01 --protein 13.1% "
        "\\\n"
        "      --protein-basis pack_eu --price '4.20 EUR'");
    add_value(app, "FLOUR", options.flour, plain_text, "", "the flour's name or part of it")
        ->required();
    add_facts(app, options.typed);
    return app;
}

CLI::App& add_bag_list(CLI::App& bag, BagListOptions& options) {
    CLI::App& app = add_command(
        bag, "list", "lists the bags and what is left of them",
        "Lists the bags that still hold flour: what is left, how long they are open, and whether "
        "the\n"
        "best-before date has passed.");
    app.footer(
        "Examples:\n  loafmark bag list\n  loafmark bag list emmer --all\n"
        "  loafmark bag list --formula country --each 900g");
    add_value(app, "FLOUR", options.flour, plain_text, "", "of this flour only");
    app.add_flag("--all", options.all, "empty bags too");
    auto* formula = add_value(app, "--formula", options.formula, plain_text, "NAME",
                              "tell how many loaves of this formula they make");
    auto* each =
        add_value(app, "--each", options.each, read_mass, "900g", "with this much dough each")
            ->needs(formula);
    formula->needs(each);
    app.add_flag("--json", options.json, "one JSON document instead of a table");
    return app;
}

CLI::App& add_bag_edit(CLI::App& bag, BagEditOptions& options) {
    CLI::App& app = add_command(
        bag, "edit", "corrects what is known of a bag",
        "Changes what you name and nothing else. --left is what the bag holds now; bakes entered\n"
        "later draw on that.");
    app.footer("Examples:\n  loafmark bag edit 3 --left 1.2kg\n  loafmark bag edit 3 --left 0g");
    add_value(
        app, "BAG", options.bag,
        [](const std::string& text) { return parse_count(text, 1, "no bag's number"); }, "",
        "its number (loafmark bag list shows it)")
        ->required();
    add_facts(app, options.typed);
    return app;
}

Outcome run(const BagAddOptions& options, journal::Journal& journal, const Context& context) {
    const journal::Flour flour = named_flour(journal, options.flour);
    journal::NewBag bag;
    static_cast<journal::BagFacts&>(bag) = facts_of(options.typed, context.today);
    bag.flour = flour.id;
    const journal::Bag added = journal.add_bag(bag);
    context.out << "Added bag " << added.id.value << " of '" << flour.name << "'";
    if (added.left) context.out << ", " << grams_text(added.left, 0);
    context.out << ".\n";
    return Outcome::done;
}

Outcome run(const BagListOptions& options, const journal::Journal& journal,
            const Context& context) {
    const std::vector<journal::Flour> flours =
        options.flour ? std::vector{named_flour(journal, *options.flour)} : journal.flours();
    std::vector<NamedBag> bags;
    for (const journal::Flour& flour : flours)
        for (const journal::Bag& bag : journal.bags(flour.id))
            if (options.all || !bag.left || *bag.left != Grams(0))
                bags.push_back({bag, flour.name});
    if (options.json)
        context.out << bags_document(bags, context.today);
    else if (bags.empty())
        context.out << "No bags. Add one: loafmark bag add --help shows how\n";
    else
        context.out << bags_table(bags, context.today);
    if (options.formula && !options.json) {
        if (!(*options.each > Grams(0))) throw UsageError("--each is nothing", "give more than 0g");
        context.out << loaves_left_text(named_formula(journal, *options.formula), *options.each,
                                        journal);
    }
    return Outcome::done;
}

Outcome run(const BagEditOptions& options, journal::Journal& journal, const Context& context) {
    const journal::BagId id = bag_id(options.bag);
    try {
        (void)journal.bag(id);
    } catch (const journal::NotFound& error) {
        throw Failure(error.what(), "loafmark bag list --all shows all");
    }
    const journal::Bag bag = journal.change_bag(id, facts_of(options.typed, context.today));
    context.out << bags_table({{bag, journal.flour(bag.flour).name}}, context.today);
    return Outcome::done;
}

}  // namespace loafmark::commands
