#include "commands/sheet.h"

#include <algorithm>
#include <ostream>

#include "commands/files.h"
#include "commands/help_text.h"
#include "commands/named.h"
#include "commands/options.h"
#include "insight/bake_values.h"
#include "insight/trial.h"
#include "reports/sheet_page.h"

namespace loafmark::commands {
namespace {

using Bakes = std::vector<journal::BakeEntry>;

Bakes bakes_of(journal::FlourId flour, const Bakes& all) {
    Bakes own;
    for (const journal::BakeEntry& bake : all)
        if (const auto* main = insight::main_flour(bake);
            main && main->flour == flour && !bake.bake.set_aside)
            own.push_back(bake);
    return own;
}

// The first slice that has a picture with a scale, of a loaf's middle where there is one.
std::optional<journal::ReadingPicture> picture_of(const Bakes& bakes,
                                                  const journal::Journal& journal) {
    for (const bool ends : {false, true})
        for (const journal::BakeEntry& bake : bakes)
            for (const journal::LoafEntry& loaf : bake.loaves)
                for (const journal::SliceEntry& slice : loaf.slices) {
                    if (!slice.reading || (slice.slice.place == journal::end_of_loaf) != ends)
                        continue;
                    const auto kept = journal.pictures(slice.reading->id);
                    const auto found = kept.find(journal::PictureKind::slice);
                    if (found != kept.end() && found->second.mm_per_pixel) return found->second;
                }
    return std::nullopt;
}

struct Held {
    Bakes own;
    Bakes control;
    std::optional<journal::Flour> control_flour;
};

reports::SheetFlour sheet_of(const journal::Flour& flour, const Held& held, const Bakes& all,
                             const journal::Journal& journal) {
    reports::SheetFlour sheet;
    sheet.kind = insight::sheet_kind_of(flour, journal.bags(flour.id));
    insight::SheetWish wish;
    wish.own = held.own;
    wish.control = held.control;
    if (held.control_flour)
        wish.control_name = insight::sheet_kind_of(*held.control_flour, {}).words;
    wish.journal = all;
    wish.tastings = journal.tastings();
    wish.flour = flour.id;
    wish.usual_thickness = journal.kitchen().facts.slice_thickness;
    sheet.lines = insight::sheet_lines(wish);
    sheet.picture = picture_of(held.own, journal);
    return sheet;
}

std::optional<journal::Flour> flour_of(const Bakes& bakes, const journal::Journal& journal) {
    for (const journal::BakeEntry& bake : bakes)
        if (const auto* main = insight::main_flour(bake)) return journal.flour(main->flour);
    return std::nullopt;
}

std::vector<reports::SheetFlour> flours_of(const journal::Trial& trial, const Bakes& all,
                                           const journal::Journal& journal) {
    std::vector<reports::SheetFlour> sheets;
    std::vector<int> places;
    const auto contenders = insight::contenders_of(trial, all, &places);
    if (contenders.empty())
        throw Failure("no bake of the trial '" + trial.name + "' is in the journal yet",
                      "put bakes into it with loafmark trial add");
    const bool has_control = places.front() == 0;
    for (std::size_t i = 0; i < contenders.size(); ++i) {
        const auto flour = flour_of(contenders[i].bakes, journal);
        if (!flour) continue;
        const bool is_control = places[i] == 0;
        Held held{contenders[i].bakes, {}, {}};
        if (!is_control && has_control) {
            held.control = contenders.front().bakes;
            held.control_flour = flour_of(held.control, journal);
        }
        sheets.push_back(sheet_of(*flour, held, all, journal));
        sheets.back().is_control = is_control;
    }
    return sheets;
}

// The newest trial in which the flour was held against another one.
std::optional<journal::Trial> trial_with(journal::FlourId flour, const Bakes& all,
                                         const journal::Journal& journal) {
    std::vector<journal::Trial> trials = journal.trials();
    std::ranges::reverse(trials);
    for (const journal::Trial& trial : trials) {
        std::vector<int> places;
        const auto contenders = insight::contenders_of(trial, all, &places);
        if (places.empty() || places.front() != 0) continue;
        const auto control = flour_of(contenders.front().bakes, journal);
        for (std::size_t i = 1; i < contenders.size(); ++i)
            if (const auto own = flour_of(contenders[i].bakes, journal);
                own && own->id == flour && control && control->id != flour)
                return trial;
    }
    return std::nullopt;
}

std::vector<reports::SheetFlour> flour_alone(const journal::Flour& flour, const Bakes& all,
                                             const journal::Journal& journal) {
    if (const auto trial = trial_with(flour.id, all, journal)) {
        std::vector<reports::SheetFlour> sheets;
        std::vector<int> places;
        const auto contenders = insight::contenders_of(*trial, all, &places);
        const auto control_flour = flour_of(contenders.front().bakes, journal);
        for (std::size_t i = 1; i < contenders.size(); ++i)
            if (const auto own = flour_of(contenders[i].bakes, journal);
                own && own->id == flour.id) {
                reports::SheetFlour control;
                control.kind = insight::sheet_kind_of(*control_flour, {});
                control.picture = picture_of(contenders.front().bakes, journal);
                control.is_control = true;
                reports::SheetFlour sheet =
                    sheet_of(flour, {contenders[i].bakes, contenders.front().bakes, control_flour},
                             all, journal);
                sheets.push_back(control);
                sheets.push_back(sheet);
                return sheets;
            }
    }
    const Bakes own = bakes_of(flour.id, all);
    if (own.empty())
        throw Failure("no bake has '" + flour.name + "' as its main flour",
                      "bake with it first; loafmark flour show tells what is known of it");
    return {sheet_of(flour, {own, {}, {}}, all, journal)};
}

}  // namespace

CLI::App& add_sheet(CLI::App& parent, SheetOptions& options) {
    CLI::App& app = add_command(
        parent, "sheet", "one page about a flour, to hand out",
        "Writes one page that can be printed and passed on: what a flour did to loaves beside the "
        "control\n"
        "of its newest trial, the water it had, a slice with the same bread to bite through, how "
        "it kept,\n"
        "what tasters said, and cautions. Only what the journal supports stands there, each line "
        "with how\n"
        "many bakes it rests on; flours by kind, never by name.");
    app.footer(
        "Examples:\n"
        "  loafmark sheet emmer -o emmer.html\n"
        "  loafmark sheet --trial which -o flours.html");
    auto* flour = add_value(app, "FLOUR", options.flour, plain_text, "", "its name or part of it");
    add_value(app, "--trial", options.trial, plain_text, "TRIAL",
              "all flours of that trial instead")
        ->excludes(flour);
    add_value(app, "-o,--output", options.output, plain_text, "FILE.html", "the file to write")
        ->required();
    return app;
}

Outcome run(const SheetOptions& options, const journal::Journal& journal, const Context& context) {
    if (!options.flour && !options.trial)
        throw UsageError("which flour is the page about?",
                         "write loafmark sheet emmer -o emmer.html, or name a --trial");
    const Bakes all = journal.find();
    reports::SheetInput input;
    input.made_at = context.now_local();
    input.made_with = "Loafmark " LOAFMARK_VERSION;
    if (options.trial) {
        const journal::Trial trial = named_trial(journal, *options.trial);
        input.flours = flours_of(trial, all, journal);
        input.title = trial.name;
    } else {
        const journal::Flour flour = named_flour(journal, *options.flour);
        input.flours = flour_alone(flour, all, journal);
        input.title = "Baking with " + insight::sheet_kind_of(flour, {}).words;
    }
    write_file(options.output, reports::sheet_page(input));
    context.out << "Wrote " << options.output << ".\n";
    return Outcome::done;
}

}  // namespace loafmark::commands
