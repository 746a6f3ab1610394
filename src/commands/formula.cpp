#include "commands/formula.h"

#include <ostream>

#include "arithmetic/near_names.h"
#include "arithmetic/quantities.h"
#include "commands/bake_facts_options.h"
#include "commands/formula_diff.h"
#include "commands/formula_text.h"
#include "commands/help_text.h"
#include "commands/named.h"
#include "commands/options.h"
#include "commands/text.h"
#include "commands/words.h"
#include "documents/text_table.h"
#include "journal/amounts.h"

namespace loafmark::commands {
namespace {

void add_recipe_options(CLI::App& app, Recipe& recipe) {
    const std::string group = "Ingredients, in percent of all flour";
    add_repeated(app, "--flour", recipe.flours, parse_named_share, "NAME=70%",
                 "a flour of the journal; may be repeated")
        ->group(group);
    add_value(app, "--water", recipe.water, read_percentage, "68%", "water in the bowl")
        ->group(group);
    add_value(app, "--salt", recipe.salt, read_percentage, "2%", "salt")->group(group);
    add_repeated(app, "--leaven,--yeast", recipe.leavens, parse_leaven, "[NAME=]1%",
                 "yeast or another leaven without flour")
        ->group(group);
    auto* starter = add_value(app, "--starter", recipe.starter, read_percentage, "20%",
                              "starter; its flour and water are counted")
                        ->group(group);
    add_value(app, "--starter-hydration", recipe.starter_hydration, read_percentage, "100%",
              "its water per flour (100% unless said)")
        ->needs(starter)
        ->group(group);
    add_value(app, "--starter-flour", recipe.starter_flour, plain_text, "NAME",
              "the flour it is fed with; needed with\nseveral flours")
        ->needs(starter)
        ->group(group);
    add_repeated(app, "--soaker", recipe.soaker, parse_named_share, "seeds=10%",
                 "soaked apart beforehand; water=15% is its\nwater; may be repeated")
        ->group(group);
    add_repeated(app, "--other", recipe.others, parse_named_share, "seeds=5%",
                 "anything else; may be repeated")
        ->group(group);
    add_repeated(app, "--water-in", recipe.water_in, parse_named_share, "milk=87%",
                 "how much of one of those is water (milk 88%, egg\n76%, butter 16% unless said)")
        ->group(group);
}

journal::FormulaVersion store(const FormulaAddOptions& options, journal::Journal& journal) {
    const journal::NewFormulaVersion version{ingredients_of(options.recipe, journal),
                                             options.notes};
    const auto figures = figures_of(journal::parts_of(version.ingredients));
    ask_about_hydration(figures ? std::optional(figures->hydration) : std::nullopt, options.sure);
    for (const journal::FormulaVersion& known : journal.formulas()) {
        if (folded(known.name) != folded(options.name)) continue;
        if (options.new_version) return journal.add_formula_version(known.formula, version);
        throw Failure("there is a formula '" + known.name + "' already",
                      "add --new-version to make this its version " +
                          std::to_string(known.version + 1) + ", or choose another name");
    }
    if (options.new_version) {
        const journal::FormulaVersion near = named_formula(journal, options.name);
        throw Failure("no formula '" + options.name + "' to make a new version of",
                      "did you mean '" + near.name + "'?");
    }
    return journal.add_formula(options.name, version);
}

journal::FormulaVersion version_of(const journal::FormulaVersion& newest, int version,
                                   const journal::Journal& journal) {
    for (const journal::FormulaVersion& known : journal.formula_versions(newest.formula))
        if (known.version == version) return known;
    throw Failure("'" + newest.name + "' has no version " + std::to_string(version),
                  "its newest is " + std::to_string(newest.version));
}

}  // namespace

CLI::App& add_formula(CLI::App& parent) {
    CLI::App& app = add_command(
        parent, "formula", "formulas: add, list, show, diff, scale, sheet",
        "A formula is a list of ingredients in baker's percent: all flour is 100 %, the flour in "
        "a\n"
        "starter counted. Hydration is worked out from it. A formula never changes: a change is a\n"
        "new version, so that old bakes keep theirs.");
    app.footer(
        "Examples:\n"
        "  loafmark formula add Country --flour 'Strong white=100%' --water 68% --salt 2% --yeast "
        "1%\n"
        "  loafmark formula scale Country --dough 900g");
    app.require_subcommand(1);
    return app;
}

CLI::App& add_formula_add(CLI::App& formula, FormulaAddOptions& options) {
    CLI::App& app = add_command(
        formula, "add", "adds a formula or a new version of one",
        "Adds a formula. The flours and the flour in the starter must add to 100 %: 20 % of a "
        "starter\n"
        "of 100 % hydration brings 10 % flour. Flours must be in the journal (loafmark flour "
        "add).");
    app.footer(
        "Examples:\n"
        "  loafmark formula add Country --flour 'Strong white=70%' --flour 'Emmer wholemeal=30%' "
        "\\\n"
        "      --water 72% --salt 2% --yeast 1%\n"
        "  loafmark formula add Sourdough --flour 'Strong white=90%' --water 62% --salt 2% \\\n"
        "      --starter 20%\n"
        "  loafmark formula add Country --new-version --flour 'Strong white=100%' --water 70%");
    add_value(app, "NAME", options.name, plain_text, "", "its name")->required();
    add_recipe_options(app, options.recipe);
    app.add_flag("--new-version", options.new_version, "this is a change of the formula NAME");
    app.add_flag("--sure", options.sure, "so dry or so wet a dough is meant");
    add_value(app, "--note", options.notes, plain_text, "TEXT", "anything else");
    return app;
}

CLI::App& add_formula_list(CLI::App& formula, FormulaListOptions& options) {
    CLI::App& app = add_command(formula, "list", "lists the formulas",
                                "Lists the newest version of each formula with its hydration.");
    app.footer("Examples:\n  loafmark formula list\n  loafmark formula list --json");
    app.add_flag("--json", options.json, "one JSON document instead of a table");
    return app;
}

CLI::App& add_formula_show(CLI::App& formula, FormulaShowOptions& options) {
    CLI::App& app = add_command(
        formula, "show", "shows one formula",
        "Shows a formula's ingredients in baker's percent, and what follows from them.");
    app.footer(
        "Examples:\n  loafmark formula show country\n  loafmark formula show country --json");
    add_value(app, "NAME", options.name, plain_text, "", "its name or part of it")->required();
    add_value(
        app, "--version", options.version,
        [](const std::string& text) { return parse_count(text, 1, "no version"); }, "2",
        "which version (the newest unless said)");
    app.add_flag("--json", options.json, "one JSON document instead of text");
    return app;
}

CLI::App& add_formula_diff(CLI::App& formula, FormulaDiffOptions& options) {
    CLI::App& app = add_command(
        formula, "diff", "shows what changed between two versions",
        "Shows what changed between two versions of a formula, ingredient by ingredient, and what\n"
        "became of the hydration. The last two versions unless said otherwise.");
    app.footer(
        "Examples:\n  loafmark formula diff country\n  loafmark formula diff country --from 1 --to "
        "3");
    add_value(app, "NAME", options.name, plain_text, "", "its name or part of it")->required();
    const auto version = [](const std::string& text) { return parse_count(text, 1, "no version"); };
    add_value(app, "--from", options.from, version, "1", "the older version");
    add_value(app, "--to", options.to, version, "3", "the newer version");
    return app;
}

CLI::App& add_formula_scale(CLI::App& formula, FormulaScaleOptions& options) {
    CLI::App& app = add_command(
        formula, "scale", "works out what to weigh",
        "Works out what to weigh for an amount of dough or of flour, for loaves of a mass, for a "
        "tin,\n"
        "or for as much dough as another bake had. Rounded to what your scale shows, so that the "
        "roundings cancel; small amounts\n"
        "are rounded finer.");
    app.footer(
        "Examples:\n"
        "  loafmark formula scale country --dough 900g\n"
        "  loafmark formula scale country --flour 500g --step 5g\n"
        "  loafmark formula scale country --loaves 2 --tin 'small tin'\n"
        "  loafmark formula scale country --same-dough-as last");
    add_value(app, "NAME", options.name, plain_text, "", "its name or part of it")->required();
    add_dough_size_options(app, options.size);
    add_value(app, "--step", options.step, read_mass, "1g",
              "what your scales show (as the kitchen's, else 1g)");
    app.add_flag("--json", options.json, "one JSON document instead of a table");
    return app;
}

Outcome run(const FormulaAddOptions& options, journal::Journal& journal, const Context& context) {
    const journal::FormulaVersion formula = store(options, journal);
    context.out << "Added formula '" << formula.name << "', version " << formula.version
                << ", hydration " << hydration_text(formula.ingredients) << ".\n";
    return Outcome::done;
}

Outcome run(const FormulaListOptions& options, const journal::Journal& journal,
            const Context& context) {
    const std::vector<journal::FormulaVersion> formulas = journal.formulas();
    if (options.json) {
        context.out << formulas_document(formulas);
    } else if (formulas.empty()) {
        context.out << "No formulas yet. Add one: loafmark formula add --help shows how\n";
    } else {
        std::vector<std::vector<std::string>> rows;
        for (const journal::FormulaVersion& formula : formulas)
            rows.push_back({formula.name, std::to_string(formula.version),
                            hydration_text(formula.ingredients)});
        using documents::Align;
        context.out << documents::text_table(
            {{"formula"}, {"version", Align::right}, {"hydration", Align::right}}, rows);
    }
    return Outcome::done;
}

Outcome run(const FormulaShowOptions& options, const journal::Journal& journal,
            const Context& context) {
    const journal::FormulaVersion newest = named_formula(journal, options.name);
    const journal::FormulaVersion formula =
        options.version ? version_of(newest, *options.version, journal) : newest;
    context.out << (options.json ? formulas_document({formula}) : formula_text(formula));
    return Outcome::done;
}

Outcome run(const FormulaDiffOptions& options, const journal::Journal& journal,
            const Context& context) {
    const journal::FormulaVersion newest = named_formula(journal, options.name);
    const int to = options.to.value_or(newest.version);
    const int from = options.from.value_or(to - 1);
    if (newest.version == 1)
        throw Failure("'" + newest.name + "' has one version only",
                      "formula add --new-version makes the next");
    context.out << formula_diff(version_of(newest, from, journal), version_of(newest, to, journal));
    return Outcome::done;
}

Outcome run(const FormulaScaleOptions& options, const journal::Journal& journal,
            const Context& context) {
    const journal::FormulaVersion formula = named_formula(journal, options.name);
    const DoughSize size = dough_size(options.size, formula, journal, context.today);
    const Grams step = scale_step(options.step, journal);
    if (options.json) {
        context.out << amounts_document(formula, size.amounts, step);
        return Outcome::done;
    }
    context.out << formula.name << ", version " << formula.version << "\n"
                << size.note << amounts_text(size.amounts, step);
    if (size.loaves > 1)
        context.out << size.loaves << " loaves of " << grams_text(size.dough / size.loaves, 0)
                    << "\n";
    return Outcome::done;
}

}  // namespace loafmark::commands
