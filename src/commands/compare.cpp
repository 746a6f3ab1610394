#include "commands/compare.h"

#include <algorithm>
#include <ostream>

#include "commands/failure.h"
#include "commands/help_text.h"
#include "commands/left_out.h"
#include "commands/line_up_file.h"
#include "commands/named.h"
#include "commands/options.h"
#include "documents/compare_document.h"
#include "insight/compare.h"
#include "insight/recipe.h"
#include "insight/trial.h"

namespace loafmark::commands {
namespace {

std::vector<journal::BakeEntry> chosen_bakes(const CompareOptions& options,
                                             const std::vector<journal::BakeEntry>& all,
                                             const journal::Journal& journal,
                                             const Context& context) {
    std::vector<journal::BakeEntry> chosen;
    for (const std::string& name : options.bakes) {
        const journal::BakeEntry bake = named_bake(journal, name, context.today);
        if (bake.bake.set_aside)
            throw Failure("'" + bake.bake.title + "' is set aside (" + *bake.bake.set_aside + ")",
                          "leave it out");
        chosen.push_back(bake);
    }
    if (!options.with_repeats) return chosen;
    const std::size_t named = chosen.size();
    for (std::size_t i = 0; i < named; ++i)
        for (const journal::BakeEntry& bake : all)
            if (insight::recipe_of(bake) == insight::recipe_of(chosen[i])) chosen.push_back(bake);
    return chosen;
}

// A name under each slice: what a trial calls its variant, else the recipe in words.
std::vector<LineUpBake> line_up_of(const std::vector<insight::Contender>& contenders) {
    std::vector<LineUpBake> list;
    for (const insight::Contender& contender : contenders)
        for (const journal::BakeEntry& bake : contender.bakes)
            list.push_back({bake, contender.name});
    return list;
}

std::vector<LineUpBake> line_up_of(const std::vector<journal::BakeEntry>& bakes) {
    std::vector<LineUpBake> list;
    for (const journal::BakeEntry& bake : bakes)
        list.push_back({bake, insight::recipe_words(bake)});
    return list;
}

// Bakes of the trial, or further ones of the recipes that are compared, which would have counted.
std::string left_out(const CompareOptions& options, const std::vector<journal::BakeEntry>& all,
                     const insight::Comparison& comparison, const journal::Journal& journal) {
    if (options.trial) {
        const journal::Trial trial = named_trial(journal, *options.trial);
        return left_out_text(all, journal, [&](const journal::BakeEntry& bake) {
            return std::ranges::find(trial.bakes, bake.bake.id, &journal::TrialBake::bake) !=
                   trial.bakes.end();
        });
    }
    if (!options.with_repeats) return "";
    return left_out_text(all, journal, [&](const journal::BakeEntry& bake) {
        return std::ranges::any_of(comparison.contenders, [&](const insight::Contender& contender) {
            return insight::recipe_of(bake) == insight::recipe_of(contender.bakes.front());
        });
    });
}

}  // namespace

CLI::App& add_compare(CLI::App& parent, CompareOptions& options) {
    CLI::App& app = add_command(
        parent, "compare", "a control against other bakes",
        "Compares bakes with the first one named, the control: every measure's difference in its "
        "unit\n"
        "and in percent, with a 95 % interval that holds for all of them together, and whether it "
        "is\n"
        "more than chance. Bakes of one recipe are repeats. Where too few are compared, the "
        "journal's\n"
        "own repeats tell how far chance goes; below 3 degrees of freedom no one can tell, and it "
        "says\n"
        "what to bake first.");
    app.footer(
        "Examples:\n"
        "  loafmark compare 'Wheat 70' 'Emmer 70'\n"
        "  loafmark compare 3 5 6 --with-repeats\n"
        "  loafmark compare last-1 last --line-up side-by-side.png\n"
        "  loafmark compare --trial which --line-up which.svg");
    auto* bakes = app.add_option("BAKE", options.bakes,
                                 "the control, then the bakes to hold against it: last,\na date, "
                                 "a number or part of a title")
                      ->type_name("");
    add_value(app, "--trial", options.trial, plain_text, "TRIAL",
              "the control and the variants of that trial instead")
        ->excludes(bakes);
    app.add_flag("--with-repeats", options.with_repeats,
                 "take in every other bake of the same recipes, too");
    app.add_flag("--with-ends", options.with_ends, "take in slices cut at an end of the loaf, too");
    app.add_flag("--json", options.json, "one JSON document instead of text");
    add_value(app, "--line-up", options.line_up, parse_line_up_file, "FILE.png|.svg",
              "draw the slices side by side, cut out, on one base line at one\n"
              "scale with a ruler, for a film, a class or a wall");
    return app;
}

Outcome run(const CompareOptions& options, const journal::Journal& journal,
            const Context& context) {
    if (!options.trial && options.bakes.size() < 2)
        throw UsageError("compare wants a control and at least one more bake",
                         "write loafmark compare CONTROL BAKE");
    const std::vector<journal::BakeEntry> all = journal.find();
    const auto ends =
        options.with_ends ? insight::EndSlices::taken_in : insight::EndSlices::left_out;
    insight::Comparison comparison;
    try {
        if (options.trial) {
            const journal::Trial trial = named_trial(journal, *options.trial);
            if (options.line_up)
                write_line_up(*options.line_up, trial.name,
                              line_up_of(insight::contenders_of(trial, all)), journal, context);
            comparison = insight::compare_trial(trial, all, ends);
        } else {
            const auto chosen = chosen_bakes(options, all, journal, context);
            if (options.line_up)
                write_line_up(*options.line_up, "Side by side", line_up_of(chosen), journal,
                              context);
            comparison = insight::compare(chosen, all, ends);
        }
    } catch (const std::invalid_argument& error) {
        // Two bakes of one recipe make a picture, though no comparison.
        if (!options.line_up || options.json)
            throw Failure(error.what(), "loafmark bake list shows all bakes");
        context.out << "Wrote " << *options.line_up << ". Not compared: " << error.what() << ".\n";
        return Outcome::done;
    }
    if (const std::string text = left_out(options, all, comparison, journal); !text.empty())
        comparison.notes.push_back(text);
    context.out << (options.json ? documents::compare_document(comparison)
                                 : documents::compare_table(comparison));
    return Outcome::done;
}

}  // namespace loafmark::commands
