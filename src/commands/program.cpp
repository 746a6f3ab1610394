#include "commands/program.h"

#include <CLI/CLI.hpp>
#include <sstream>

#include "commands/backup.h"
#include "commands/bag.h"
#include "commands/bake.h"
#include "commands/bake_adjust.h"
#include "commands/bake_edit.h"
#include "commands/bake_file.h"
#include "commands/bin.h"
#include "commands/blend.h"
#include "commands/check.h"
#include "commands/command_line_errors.h"
#include "commands/compare.h"
#include "commands/demo.h"
#include "commands/export_journal.h"
#include "commands/find.h"
#include "commands/flour.h"
#include "commands/formula.h"
#include "commands/formula_sheet.h"
#include "commands/help_text.h"
#include "commands/import_journal.h"
#include "commands/kitchen.h"
#include "commands/measure.h"
#include "commands/next.h"
#include "commands/open_journal.h"
#include "commands/report.h"
#include "commands/sheet.h"
#include "commands/slice.h"
#include "commands/steady.h"
#include "commands/target.h"
#include "commands/taste.h"
#include "commands/trend.h"
#include "commands/trial.h"
#include "commands/trial_plan.h"
#include "commands/undo.h"

namespace loafmark::commands {
namespace {

constexpr int option_column_width = 36;

void set_up_root(CLI::App& app, std::optional<std::string>& journal) {
    app.description(
        "Loafmark measures photos of sliced loaves and keeps a journal of bakes: which flour, how\n"
        "much water, and what became of the crumb.");
    app.footer(
        "Start here:\n"
        "  loafmark target --paper a4 -o mat.pdf     print the mat and lay a slice on it\n"
        "  loafmark measure slice.jpg                measure a photo of it\n"
        "  loafmark demo my-demo                     see a whole journal and its report\n"
        "Then a journal of your own: loafmark flour add, formula add, bake add, slice add, find.\n"
        "\nloafmark COMMAND --help says more on a command, with examples.\n"
        "Exit codes: 0 done; 1 the work failed or a photo could not be measured; 2 the command "
        "line\n"
        "was wrong.");
    app.set_version_flag("--version", "loafmark " LOAFMARK_VERSION, "print the version");
    app.set_help_flag("-h,--help", "print this help");
    app.add_option("--journal", journal,
                   "the journal's folder (else $LOAFMARK_JOURNAL, else\n"
                   "loafmark in $XDG_DATA_HOME or ~/.local/share)")
        ->type_name("DIR");
    const auto help = std::make_shared<HelpText>();
    help->column_width(option_column_width);
    help->label("SUBCOMMAND", "COMMAND");
    app.formatter(help);
    app.fallthrough();  // so that --journal may also stand behind the command
    app.require_subcommand(1);
}

// Opens the journal only for a command whose run() takes one, and as that one takes it.
template <class Options>
Outcome run_with_journal(const Options& options, const std::optional<std::string>& folder,
                         const Context& context) {
    if constexpr (requires(const journal::Journal& journal) {
                      commands::run(options, journal, context);
                  }) {
        const auto journal = journal_to_read(journal_folder(folder, context));
        return commands::run(options, journal, context);
    } else if constexpr (requires(journal::Journal & journal) {
                             commands::run(options, journal, context);
                         }) {
        auto journal = journal_to_write(journal_folder(folder, context));
        return commands::run(options, journal, context);
    } else if constexpr (requires(const OpenJournal& open) {
                             commands::run(options, open, context);
                         }) {
        const auto place = [&] { return journal_folder(folder, context); };
        return commands::run(options,
                             OpenJournal{.to_write = [&] { return journal_to_write(place()); },
                                         .to_read = [&] { return journal_to_read(place()); }},
                             context);
    } else if constexpr (requires(const JournalFolder& place) {
                             commands::run(options, place, context);
                         }) {
        return commands::run(options, JournalFolder{journal_folder(folder, context)}, context);
    } else {
        return commands::run(options, context);
    }
}

}  // namespace

Program::Program() : app_(std::make_unique<CLI::App>("", "loafmark")) {
    set_up_root(*app_, journal_);
    add(*app_, add_target);
    add(*app_, add_measure);
    CLI::App& kitchen = add_kitchen(*app_);
    add(kitchen, add_kitchen_show);
    add(kitchen, add_kitchen_set);
    CLI::App& flour = add_flour(*app_);
    add(flour, add_flour_add);
    add(flour, add_flour_list);
    add(flour, add_flour_show);
    add(flour, add_flour_edit);
    CLI::App& bag = add_bag(*app_);
    add(bag, add_bag_add);
    add(bag, add_bag_list);
    add(bag, add_bag_edit);
    CLI::App& formula = add_formula(*app_);
    add(formula, add_formula_add);
    add(formula, add_formula_list);
    add(formula, add_formula_show);
    add(formula, add_formula_diff);
    add(formula, add_formula_scale);
    add(formula, add_formula_sheet);
    add(*app_, add_blend);
    CLI::App& bake = add_bake(*app_);
    add(bake, add_bake_add);
    add(bake, add_bake_list);
    add(bake, add_bake_show);
    add(bake, add_bake_edit);
    add(bake, add_bake_adjust);
    add(bake, add_bake_mark);
    add(bake, add_bake_read);
    CLI::App& slice = add_slice(*app_);
    add(slice, add_slice_add);
    add(slice, add_slice_show);
    add(slice, add_slice_remeasure);
    CLI::App& trial = add_trial(*app_);
    add(trial, add_trial_plan);
    add(trial, add_trial_new);
    add(trial, add_trial_add);
    add(trial, add_trial_show);
    add(trial, add_trial_list);
    add(*app_, add_taste);
    add(*app_, add_tastings);
    add(*app_, add_find);
    add(*app_, add_trend);
    add(*app_, add_compare);
    add(*app_, add_next);
    add(*app_, add_steady);
    add(*app_, add_sheet);
    add(*app_, add_report);
    add(*app_, add_set_aside);
    add(*app_, add_drop);
    CLI::App& bin = add_bin(*app_);
    add(bin, add_bin_list);
    add(bin, add_bin_back);
    add(bin, add_bin_empty);
    add(*app_, add_undo);
    add(*app_, add_redo);
    add(*app_, add_export);
    add(*app_, add_import);
    add(*app_, add_backup);
    add(*app_, add_restore);
    add(*app_, add_check);
    add(*app_, add_demo);
}

Program::~Program() = default;

template <class Options>
void Program::add(CLI::App& parent, CLI::App& (*declare)(CLI::App&, Options&)) {
    const auto options = std::make_shared<Options>();
    CLI::App& app = declare(parent, *options);
    entries_.push_back({&app, [this, options](const Context& context) {
                            return run_with_journal(*options, journal_, context);
                        }});
}

std::optional<std::string> Program::parse(const std::vector<std::string>& arguments) {
    try {
        app_->parse(std::vector<std::string>(arguments.rbegin(), arguments.rend()));
        return std::nullopt;
    } catch (const CLI::Success& asked) {
        std::ostringstream text;
        app_->exit(asked, text, text);
        return text.str();
    } catch (const CLI::ParseError& error) {
        throw usage_error(error, *app_);
    }
}

Outcome Program::run(const Context& context) const {
    for (const Entry& entry : entries_)
        if (entry.app->parsed()) return entry.run(context);
    throw UsageError("no command", "loafmark --help lists them");
}

}  // namespace loafmark::commands
