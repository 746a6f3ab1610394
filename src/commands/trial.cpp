#include "commands/trial.h"

#include <cmath>
#include <ostream>

#include "arithmetic/near_names.h"
#include "arithmetic/quantities.h"
#include "commands/help_text.h"
#include "commands/messages.h"
#include "commands/named.h"
#include "commands/options.h"
#include "commands/text.h"
#include "commands/trial_text.h"
#include "commands/words.h"
#include "insight/settings.h"
#include "insight/trial.h"

namespace loafmark::commands {
namespace {

// "water=equal handling".
journal::TrialSetting parse_fitted(const std::string& text) {
    const auto sign = text.find('=');
    if (sign == std::string::npos || sign + 1 == text.size())
        throw std::runtime_error("'" + text +
                                 "' names no rule; write it as 'water=equal handling'");
    return {read_setting(text.substr(0, sign)), "fitted", plain_text(text.substr(sign + 1))};
}

// What the bakes had of the factor, as the variants' names say it.
int variant_by_factor(const journal::Trial& trial, const journal::BakeEntry& bake) {
    const auto had = insight::setting_of(bake, trial.factor);
    const std::string title = "bake " + std::to_string(bake.bake.id.value);
    const std::string remedy = "name it with --variant";
    if (!had) throw Failure("the " + trial.factor + " of " + title + " is not noted", remedy);
    const std::string text = folded(had->text);
    for (std::size_t i = 0; i < trial.variants.size(); ++i) {
        const std::string name = folded(trial.variants[i]);
        if (name == text) return static_cast<int>(i);
        // "72%" is what 72.0 % is called.
        try {
            const double percents = percent(parse_percentage(name));
            if (had->number && std::abs(percents - *had->number) <= 0.5) return static_cast<int>(i);
        } catch (const std::runtime_error&) {
        }
    }
    throw Failure(title + " had " + had->text + ", which is none of the trial's variants", remedy);
}

int variant_called(const journal::Trial& trial, const std::string& name) {
    std::vector<int> fitting;
    for (std::size_t i = 0; i < trial.variants.size(); ++i) {
        if (folded(trial.variants[i]) == folded(name)) return static_cast<int>(i);
        if (folded(trial.variants[i]).find(folded(name)) != std::string::npos)
            fitting.push_back(static_cast<int>(i));
    }
    if (fitting.size() == 1) return fitting.front();
    std::string all;
    for (const std::string& variant : trial.variants)
        all += (all.empty() ? "" : ", ") + variant;
    throw Failure("the trial has no variant '" + name + "'", "it has " + all);
}

journal::NewTrial trial_of(const TrialNewOptions& options) {
    journal::NewTrial trial;
    trial.name = options.name;
    trial.factor = options.factor;
    trial.question =
        options.question.value_or(options.fitted.empty() ? "same recipe" : "each at its best");
    if (trial.question == "same recipe" && !options.fitted.empty())
        throw UsageError(
            "'same recipe' holds all but the factor, and --fitted sets something for "
            "each variant",
            "ask 'each at its best', or hold it");
    trial.variants.push_back(options.control);
    for (const std::string& variant : options.variants)
        trial.variants.push_back(variant);
    for (const std::string& setting : options.held)
        trial.settings.push_back({setting, "held", std::nullopt});
    for (const journal::TrialSetting& setting : options.fitted)
        trial.settings.push_back(setting);
    for (const std::string& setting : options.free)
        trial.settings.push_back({setting, "free", std::nullopt});
    trial.notes = options.note;
    return trial;
}

}  // namespace

std::string read_setting(const std::string& text) {
    return parse_word(text, journal::setting_words, "no setting");
}

void add_variant_options(CLI::App& app, std::string& factor, std::string& control,
                         std::vector<std::string>& variants) {
    add_value(app, "--factor", factor, read_setting, "SETTING",
              "what differs on purpose (flour unless said)");
    add_value(app, "--control", control, plain_text, "NAME", "the control: a flour's name, 66%...")
        ->required();
    add_repeated(app, "--variant", variants, plain_text, "NAME",
                 "what is held against it; may be repeated")
        ->required();
}

CLI::App& add_trial(CLI::App& parent) {
    CLI::App& app = add_command(
        parent, "trial", "a control and variants: plan, new, add, show, list",
        "A trial compares bakes: a control and variants that differ in one factor. Each other "
        "setting is\n"
        "held (the same for all), fitted (set for each variant by a rule that you state) or free. "
        "A held\n"
        "setting that moved makes the comparison unfair, and the program says so.");
    app.footer(
        "Examples:\n"
        "  loafmark trial plan --control 'Strong white' --variant Emmer --measure loaf_height \\\n"
        "      --difference 8mm --scatter 4mm\n"
        "  loafmark trial new 'Which flour' --control 'Strong white' --variant Emmer --held water\n"
        "  loafmark trial show which");
    app.require_subcommand(1);
    return app;
}

CLI::App& add_trial_new(CLI::App& trial, TrialNewOptions& options) {
    CLI::App& app = add_command(
        trial, "new", "begins a trial",
        "Begins a trial. 'same recipe' asks what the factor does with all else held; 'each at its "
        "best'\n"
        "lets each variant have settings of its own, by a rule such as equal handling, which then "
        "are\n"
        "part of the variant.");
    app.footer(
        "Examples:\n"
        "  loafmark trial new 'Which flour' --control 'Strong white' --variant Emmer --variant "
        "Spelt \\\n"
        "      --held tin --held 'dough mass' --held water\n"
        "  loafmark trial new 'Flours at their best' --control 'Strong white' --variant Emmer \\\n"
        "      --fitted 'water=equal handling' --fitted 'proof=equal readiness' --held tin\n"
        "  loafmark trial new 'How wet' --factor water --control 66% --variant 72%");
    add_value(app, "NAME", options.name, plain_text, "", "what to call it")->required();
    add_variant_options(app, options.factor, options.control, options.variants);
    add_value(
        app, "--question", options.question,
        [](const std::string& text) {
            return parse_word(text, journal::question_words, "no question");
        },
        "TEXT", "same recipe, or each at its best");
    add_repeated(app, "--held", options.held, read_setting, "SETTING",
                 "the same for all; may be repeated");
    add_repeated(app, "--fitted", options.fitted, parse_fitted, "SETTING=RULE",
                 "set for each by a rule; may be repeated");
    add_repeated(app, "--free", options.free, read_setting, "SETTING",
                 "left open; may be repeated");
    add_value(app, "--note", options.note, plain_text, "TEXT", "what else is to be known");
    return app;
}

CLI::App& add_trial_add(CLI::App& trial, TrialAddOptions& options) {
    CLI::App& app = add_command(
        trial, "add", "puts bakes into a trial",
        "Puts bakes into a trial. Which variant a bake is follows from what it had of the factor "
        "(its\n"
        "flour, its water) unless you name it.");
    app.footer(
        "Examples:\n"
        "  loafmark trial add which last\n"
        "  loafmark trial add which 12 13 --variant Emmer");
    add_value(app, "TRIAL", options.trial, plain_text, "", "its number, name or part of it")
        ->required();
    app.add_option("BAKE", options.bakes, "last, a date, a number or part of a title")
        ->required()
        ->type_name("");
    add_value(app, "--variant", options.variant, plain_text, "NAME",
              "which variant they are, or the control");
    return app;
}

CLI::App& add_trial_show(CLI::App& trial, TrialShowOptions& options) {
    CLI::App& app = add_command(
        trial, "show", "what a trial can tell so far, and what it lacks",
        "Says which comparisons are fair, which held settings moved, what to bake to part two "
        "causes,\n"
        "and where repeats are missing. loafmark compare --trial shows the differences.");
    app.footer("Examples:\n  loafmark trial show which\n  loafmark trial show 1 --json");
    add_value(app, "TRIAL", options.trial, plain_text, "", "its number, name or part of it")
        ->required();
    app.add_flag("--json", options.json, "one JSON document instead of text");
    return app;
}

CLI::App& add_trial_list(CLI::App& trial, TrialListOptions& options) {
    CLI::App& app =
        add_command(trial, "list", "all trials", "Lists all trials, in the order they were begun.");
    app.footer("Examples:\n  loafmark trial list\n  loafmark trial list --json");
    app.add_flag("--json", options.json, "one JSON document instead of text");
    return app;
}

Outcome run(const TrialNewOptions& options, journal::Journal& journal, const Context& context) {
    const journal::Trial trial = journal.add_trial(trial_of(options));
    context.out << "Began trial " << trial.id.value << ": " << trial.name << ". Put bakes into it: "
                << "loafmark trial add " << trial.id.value << " last\n";
    return Outcome::done;
}

Outcome run(const TrialAddOptions& options, journal::Journal& journal, const Context& context) {
    const journal::Trial trial = named_trial(journal, options.trial);
    std::vector<journal::TrialBake> members;
    for (const std::string& text : options.bakes) {
        const journal::BakeEntry bake = named_bake(journal, text, context.today);
        members.push_back({bake.bake.id, options.variant ? variant_called(trial, *options.variant)
                                                         : variant_by_factor(trial, bake)});
    }
    (void)journal.add_to_trial(trial.id, members);
    for (const journal::TrialBake& member : members)
        context.out << "Bake " << member.bake.value << " is "
                    << (member.variant == 0 ? "the control, " : "variant ")
                    << trial.variants[static_cast<std::size_t>(member.variant)] << ", of trial "
                    << trial.id.value << ".\n";
    return Outcome::done;
}

Outcome run(const TrialShowOptions& options, const journal::Journal& journal,
            const Context& context) {
    const journal::Trial trial = named_trial(journal, options.trial);
    const std::vector<journal::BakeEntry> bakes = journal.find();
    const insight::TrialState state = insight::state_of(trial, bakes);
    context.out << (options.json ? trial_document(trial, state) : trial_text(trial, state, bakes));
    return Outcome::done;
}

Outcome run(const TrialListOptions& options, const journal::Journal& journal,
            const Context& context) {
    const std::vector<journal::Trial> trials = journal.trials();
    context.out << (options.json ? trials_document(trials) : trials_table(trials));
    return Outcome::done;
}

}  // namespace loafmark::commands
