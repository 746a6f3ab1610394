#include "commands/compare.h"

#include <algorithm>
#include <ostream>

#include "commands/failure.h"
#include "commands/files.h"
#include "commands/help_text.h"
#include "commands/left_out.h"
#include "commands/named.h"
#include "commands/options.h"
#include "documents/compare_document.h"
#include "insight/compare.h"
#include "insight/recipe.h"
#include "insight/trial.h"
#include "reports/line_up_svg.h"

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

// Every contender's first slice that has a picture with a scale; ends only where there is nothing
// else.
std::vector<reports::LineUpSlice> line_up_of(const insight::Comparison& comparison,
                                             const journal::Journal& journal) {
    std::vector<reports::LineUpSlice> list;
    for (const insight::Contender& contender : comparison.contenders)
        for (const journal::BakeEntry& bake : contender.bakes) {
            const auto slices = [&] {
                std::vector<journal::SliceEntry> found;
                for (const journal::LoafEntry& loaf : bake.loaves)
                    for (const journal::SliceEntry& slice : loaf.slices)
                        if (slice.reading) found.push_back(slice);
                std::ranges::stable_partition(found, [](const journal::SliceEntry& slice) {
                    return slice.slice.place != journal::end_of_loaf;
                });
                return found;
            }();
            for (const journal::SliceEntry& slice : slices) {
                const auto pictures = journal.pictures(slice.reading->id);
                const auto picture = pictures.find(journal::PictureKind::slice);
                if (picture == pictures.end() || !picture->second.mm_per_pixel) continue;
                list.push_back({picture->second, contender.name, to_text(bake.bake.date)});
                break;
            }
        }
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
        "  loafmark compare last-1 last --line-up side-by-side.svg\n"
        "  loafmark compare --trial which");
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
    add_value(app, "--line-up", options.line_up, plain_text, "FILE.svg",
              "draw the slices side by side, on one base line at one scale");
    return app;
}

Outcome run(const CompareOptions& options, const journal::Journal& journal,
            const Context& context) {
    if (!options.trial && options.bakes.size() < 2)
        throw UsageError("compare wants a control and at least one more bake",
                         "write loafmark compare CONTROL BAKE");
    const std::vector<journal::BakeEntry> all = journal.find();
    insight::Comparison comparison;
    try {
        const auto ends =
            options.with_ends ? insight::EndSlices::taken_in : insight::EndSlices::left_out;
        comparison =
            options.trial
                ? insight::compare_trial(named_trial(journal, *options.trial), all, ends)
                : insight::compare(chosen_bakes(options, all, journal, context), all, ends);
    } catch (const std::invalid_argument& error) {
        throw Failure(error.what(), "loafmark bake list shows all bakes");
    }
    if (const std::string text = left_out(options, all, comparison, journal); !text.empty())
        comparison.notes.push_back(text);
    if (options.line_up) {
        try {
            write_file(*options.line_up, reports::line_up_svg(line_up_of(comparison, journal),
                                                              comparison.contenders.front().name +
                                                                  " and what is held against it"));
        } catch (const std::invalid_argument& error) {
            throw Failure(error.what(), "photograph slices on a printed target");
        }
    }
    context.out << (options.json ? documents::compare_document(comparison)
                                 : documents::compare_table(comparison));
    return Outcome::done;
}

}  // namespace loafmark::commands
