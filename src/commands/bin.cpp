#include "commands/bin.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <ostream>

#include "arithmetic/near_names.h"
#include "commands/failure.h"
#include "commands/help_text.h"
#include "commands/named.h"
#include "commands/options.h"
#include "documents/text_table.h"

namespace loafmark::commands {
namespace {

constexpr std::array<std::string_view, 5> kind_words{"flour", "bag", "formula", "bake", "slice"};

journal::Droppable parse_kind(const std::string& text) {
    const auto found = std::ranges::find(kind_words, text);
    if (found == kind_words.end())
        throw std::runtime_error("'" + text + "' is none of flour, bag, formula, bake, slice");
    return static_cast<journal::Droppable>(found - kind_words.begin());
}

std::string_view word_for(journal::Droppable kind) {
    return kind_words.at(static_cast<std::size_t>(kind));
}

std::int64_t number_of(const std::string& text, const std::string& noun) {
    std::int64_t number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc() || end != text.data() + text.size() || number < 1)
        throw UsageError("'" + text + "' is no " + noun + "'s number",
                         "loafmark " + noun + " list, or bake show, shows the numbers");
    return number;
}

std::int64_t number_named(const DropOptions& options, const journal::Journal& journal,
                          const Context& context) {
    switch (options.kind) {
        case journal::Droppable::flour:
            return named_flour(journal, options.which).id.value;
        case journal::Droppable::formula:
            return named_formula(journal, options.which).formula.value;
        case journal::Droppable::bake:
            return named_bake(journal, options.which, context.today).bake.id.value;
        default:
            return number_of(options.which, std::string(word_for(options.kind)));
    }
}

void add_kind_and_which(CLI::App& app, journal::Droppable& kind, std::string& which) {
    add_value(app, "KIND", kind, parse_kind, "", "bake, slice, flour, bag or formula")->required();
    add_value(app, "WHICH", which, plain_text, "", "its number, or its name as elsewhere")
        ->required();
}

// By its number, or by the name that it bears in the bin.
journal::Dropped in_bin(const journal::Journal& journal, const BinBackOptions& options) {
    std::vector<journal::Dropped> fitting;
    for (const journal::Dropped& one : journal.bin()) {
        if (one.table != word_for(options.kind)) continue;
        if (std::to_string(one.number) == options.which) return one;
        if (folded(one.name).find(folded(options.which)) != std::string::npos)
            fitting.push_back(one);
    }
    if (fitting.size() == 1) return fitting.front();
    const std::string noun(word_for(options.kind));
    throw Failure((fitting.empty() ? "there is no " + noun + " '" : "several fit " + noun + " '") +
                      options.which + "'" + (fitting.empty() ? " in the bin" : ""),
                  "loafmark bin list shows what is in it, with numbers");
}

}  // namespace

CLI::App& add_drop(CLI::App& parent, DropOptions& options) {
    CLI::App& app =
        add_command(parent, "drop", "puts a bake, slice, flour, bag or formula into the bin",
                    "Puts something that was entered by mistake into the bin: it is in no list, "
                    "sum or statistic\n"
                    "any more, and a dropped bake gives its bags their flour back. `loafmark bin "
                    "back` takes it\n"
                    "out. A bake that went wrong is better set aside (loafmark set-aside).");
    app.footer(
        "Examples:\n"
        "  loafmark drop bake last\n"
        "  loafmark drop slice 12\n"
        "  loafmark drop flour 'Old rye'");
    add_kind_and_which(app, options.kind, options.which);
    return app;
}

CLI::App& add_bin(CLI::App& parent) {
    CLI::App& app = add_command(parent, "bin", "shows the bin, takes out of it, empties it",
                                "What was dropped lies in the bin until it is emptied.");
    app.require_subcommand(1);
    return app;
}

CLI::App& add_bin_list(CLI::App& bin, BinListOptions&) {
    CLI::App& app = add_command(bin, "list", "shows what is in the bin",
                                "Shows what is in the bin, the last dropped first.");
    app.footer("Example:\n  loafmark bin list");
    return app;
}

CLI::App& add_bin_back(CLI::App& bin, BinBackOptions& options) {
    CLI::App& app = add_command(bin, "back", "takes something out of the bin",
                                "Takes something out of the bin: it counts again as before.");
    app.footer("Examples:\n  loafmark bin back bake 12\n  loafmark bin back flour 'Old rye'");
    add_kind_and_which(app, options.kind, options.which);
    return app;
}

CLI::App& add_bin_empty(CLI::App& bin, BinEmptyOptions& options) {
    CLI::App& app = add_command(
        bin, "empty", "removes for good what is in the bin",
        "Removes what is in the bin for good, photos that no other slice shows too. This is the "
        "one\n"
        "thing that cannot be undone, so it wants --sure; make a backup first. A flour, bag or\n"
        "formula that a bake still names stays in the bin.");
    app.footer("Example:\n  loafmark bin empty --sure");
    app.add_flag("--sure", options.sure, "it is meant");
    return app;
}

CLI::App& add_set_aside(CLI::App& parent, SetAsideOptions& options) {
    CLI::App& app = add_command(
        parent, "set-aside", "keeps a bake, but out of trends, comparisons and next",
        "A bake that cannot be compared (the oven failed, the salt was forgotten) is kept and "
        "shown,\n"
        "but left out of trends, comparisons and `next`, which say how many they leave out. Its\n"
        "flour is gone all the same: bags still count it.");
    app.footer(
        "Examples:\n"
        "  loafmark set-aside last --because 'oven went out'\n"
        "  loafmark set-aside last --back");
    add_value(app, "BAKE", options.bake, plain_text, "",
              "last, a date, a number, part of its title")
        ->required();
    auto* because = add_value(app, "--because", options.because, plain_text, "TEXT", "the reason");
    app.add_flag("--back", options.back, "let it count again")->excludes(because);
    return app;
}

Outcome run(const DropOptions& options, journal::Journal& journal, const Context& context) {
    const auto dropped = journal.drop(options.kind, number_named(options, journal, context));
    context.out << "In the bin: " << dropped.table << " " << dropped.number << " (" << dropped.name
                << "). Back with: loafmark bin back " << dropped.table << " " << dropped.number
                << "\n";
    return Outcome::done;
}

Outcome run(const BinListOptions&, const journal::Journal& journal, const Context& context) {
    std::vector<std::vector<std::string>> rows;
    for (const journal::Dropped& one : journal.bin())
        rows.push_back({one.table, std::to_string(one.number), one.name, one.dropped_at});
    if (rows.empty())
        context.out << "The bin is empty.\n";
    else
        context.out << documents::text_table(
            {{"kind"}, {"number", documents::Align::right}, {"name"}, {"dropped (UTC)"}}, rows);
    return Outcome::done;
}

Outcome run(const BinBackOptions& options, journal::Journal& journal, const Context& context) {
    const journal::Dropped back = journal.take_out(options.kind, in_bin(journal, options).number);
    context.out << "Back: " << back.table << " " << back.number << " (" << back.name << ")\n";
    return Outcome::done;
}

Outcome run(const BinEmptyOptions& options, journal::Journal& journal, const Context& context) {
    const std::size_t held = journal.bin().size();
    if (held == 0) {
        context.out << "The bin is empty.\n";
        return Outcome::done;
    }
    if (!options.sure)
        throw UsageError(
            "the bin holds " + std::to_string(held) + " things, and emptying it cannot be undone",
            "look with loafmark bin list, make a backup, then say --sure");
    const journal::Emptied emptied = journal.empty_bin();
    context.out << "Gone for good: " << emptied.gone << "\n";
    for (const journal::Dropped& kept : emptied.kept)
        context.out << "Still in the bin, since others name it: " << kept.table << " "
                    << kept.number << " (" << kept.name << ")\n";
    return Outcome::done;
}

Outcome run(const SetAsideOptions& options, journal::Journal& journal, const Context& context) {
    if (!options.back && !options.because)
        throw UsageError("set-aside wants a reason", "say it with --because 'oven went out'");
    const auto bake = named_bake(journal, options.bake, context.today);
    const auto after = journal.set_aside(bake.bake.id, options.because);
    context.out << "Bake " << after.bake.id.value << ", " << after.bake.title << ", "
                << to_text(after.bake.date)
                << (after.bake.set_aside ? ": set aside (" + *after.bake.set_aside + ")"
                                         : std::string(": counts again"))
                << "\n";
    return Outcome::done;
}

}  // namespace loafmark::commands
