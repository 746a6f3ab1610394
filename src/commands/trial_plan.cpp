#include "commands/trial_plan.h"

#include <cmath>
#include <ostream>
#include <random>

#include "arithmetic/near_names.h"
#include "arithmetic/numbers.h"
#include "arithmetic/quantities.h"
#include "commands/dough_size.h"
#include "commands/help_text.h"
#include "commands/messages.h"
#include "commands/named.h"
#include "commands/open_journal.h"
#include "commands/options.h"
#include "commands/text.h"
#include "commands/trial.h"
#include "commands/words.h"
#include "journal/amounts.h"

namespace loafmark::commands {
namespace {

Measure read_measure(const std::string& text) {
    if (const auto measure = measure_of_key(text)) return *measure;
    std::vector<std::string> keys;
    for (const MeasureInfo& info : measure_catalogue)
        keys.emplace_back(info.key);
    throw std::runtime_error("'" + text + "' is no measure; " +
                             did_you_mean(near_names(text, keys)));
}

// A difference or a scatter in the measure's unit: 8mm or 0.8cm of a length, 0.05 of openness.
double read_amount(const std::string& option, const std::string& text, Measure measure) {
    const MeasureInfo& info = info_of(measure);
    return reading_option(option, [&] {
        if (info.unit == "mm") return parse_length(text).count();
        std::string number = text;
        if (!info.unit.empty() && number.ends_with(info.unit))
            number.resize(number.size() - info.unit.size());
        const auto value = parse_number(std::string(trimmed(number)));
        if (!value || !(*value > 0))
            throw std::runtime_error("'" + text + "' is no difference of " +
                                     std::string(info.name) + "; write it as 0.5" +
                                     std::string(info.unit));
        return *value;
    });
}

std::string read_clock(const std::string& text) {
    constexpr std::size_t after_the_day = 11;  // "2026-01-01 08:00"
    return read_moment(text, Date{2026, 1, 1}).substr(after_the_day);
}

insight::Scatter scatter_for(const TrialPlanOptions& options, const journal::Journal& journal) {
    if (!options.scatter_text.empty())
        return {read_amount("--scatter", options.scatter_text, options.measure), 0, "as said"};
    if (const auto own = insight::scatter_of(journal.find(), options.measure)) return *own;
    throw Failure("the journal has no " + std::string(info_of(options.measure).name) +
                      " yet, and nothing says how far two bakes of one recipe lie apart",
                  "say it, for example --scatter 4mm");
}

// The variant's own recipe.
journal::FormulaVersion formula_for(const journal::FormulaVersion& formula,
                                    const std::string& factor, const std::string& variant,
                                    const journal::Journal& journal) {
    journal::FormulaVersion own = formula;
    if (factor == "flour") {
        const journal::Flour flour = named_flour(journal, variant);
        journal::Ingredient* main = nullptr;
        for (journal::Ingredient& line : own.ingredients)
            if (line.kind == IngredientKind::flour && (!main || line.share > main->share))
                main = &line;
        if (!main) throw Failure("'" + formula.name + "' has no flour of its own", "name another");
        const auto old = main->flour;
        for (journal::Ingredient& line : own.ingredients)
            if (line.flour == old) {
                line.flour = flour.id;
                if (line.kind == IngredientKind::flour) line.name = flour.name;
            }
    } else if (factor == "water") {
        const Fraction wanted =
            reading_option("--variant", [&] { return parse_percentage(variant); });
        double other = 0;
        journal::Ingredient* water = nullptr;
        for (journal::Ingredient& line : own.ingredients)
            if (line.kind == IngredientKind::water)
                water = &line;
            else
                other += line.share.count() * line.water_fraction.count();
        for (const journal::Ingredient& line : own.ingredients)
            if (line.kind == IngredientKind::water && &line != water) other += line.share.count();
        if (!water || wanted.count() < other)
            throw Failure("'" + formula.name + "' cannot have " + to_text(wanted) + " water",
                          "name another formula");
        water->share = Fraction(wanted.count() - other);
    }
    return own;
}

std::vector<PlannedFormula> doughs_for(const TrialPlanOptions& options,
                                       const std::vector<std::string>& variants,
                                       const journal::Journal& journal) {
    if (!options.formula) return {};
    const journal::FormulaVersion formula = named_formula(journal, *options.formula);
    if (!options.each || !(*options.each > Grams(0)))
        throw UsageError("how much dough is each?", "write --each 900g");
    std::vector<PlannedFormula> doughs;
    for (const std::string& variant : variants) {
        PlannedFormula& dough = doughs.emplace_back();
        dough.formula = formula_for(formula, options.factor, variant, journal);
        std::vector<Grams> masses;
        for (const auto& amount :
             journal::amounts_for_dough(dough.formula.ingredients, *options.each))
            masses.push_back(amount.mass);
        dough.masses = rounded_to_step(masses, scale_step(std::nullopt, journal));
    }
    return doughs;
}

// A flour that was named in part, as it is called.
std::vector<std::string> variants_of(const TrialPlanOptions& options,
                                     const journal::Journal& journal) {
    std::vector<std::string> variants{options.control};
    variants.insert(variants.end(), options.variants.begin(), options.variants.end());
    if (options.factor == "flour" && options.formula)
        for (std::string& variant : variants)
            variant = named_flour(journal, variant).name;
    return variants;
}

PlanInWords planned(const TrialPlanOptions& options, const journal::Journal& journal,
                    const Context& context) {
    PlanInWords plan;
    plan.options = options;
    plan.variants = variants_of(options, journal);
    plan.wish.difference = read_amount("--difference", options.difference_text, options.measure);
    plan.scatter = scatter_for(options, journal);
    plan.wish.variants = static_cast<int>(plan.variants.size());
    plan.wish.doughs_a_day = options.doughs_a_day > 0 ? options.doughs_a_day : plan.wish.variants;
    plan.wish.oven_places = options.oven_places;
    plan.wish.sd = plan.scatter.sd;
    plan.wish.chance = options.chance.count();
    plan.wish.repeats = options.repeats;
    // Small enough to be written down and typed again.
    plan.wish.seed = options.seed ? *options.seed : std::random_device{}() % 100000;
    try {
        plan.plan = insight::plan_trial(plan.wish);
    } catch (const std::invalid_argument& error) {
        throw UsageError(error.what(), "");
    }
    plan.doughs = doughs_for(options, plan.variants, journal);
    if (options.first_day)
        plan.first_day = reading_option(
            "--first-day", [&] { return parse_date(*options.first_day, context.today); });
    return plan;
}

void keep(const PlanInWords& plan, const OpenJournal& open, const Context& context) {
    journal::NewTrial trial;
    trial.name = *plan.options.keep;
    trial.factor = plan.options.factor;
    trial.variants = plan.variants;
    trial.notes = "planned with seed " + std::to_string(plan.wish.seed);
    for (const char* setting : {"flour", "water", "tin", "dough mass"})
        if (setting != plan.options.factor) trial.settings.push_back({setting, "held", {}});
    auto journal = open.to_write();
    const journal::Trial kept = journal.add_trial(trial);
    context.out << "\nKept as trial " << kept.id.value << ", " << kept.name
                << ": put each bake into it with loafmark trial add " << kept.id.value << " last\n";
}

void add_day_options(CLI::App& app, TrialPlanOptions& options) {
    const std::string group = "The bake days";
    add_value(
        app, "--doughs-a-day", options.doughs_a_day,
        [](const std::string& text) { return parse_count(text, 2, "no number of doughs"); }, "3",
        "how many you bake in a day (one of each unless\nsaid)")
        ->group(group);
    add_repeated(app, "--oven-place", options.oven_places, plain_text, "NAME",
                 "a place in the oven; name each of them")
        ->group(group);
    add_value(app, "--first-day", options.first_day, plain_text, "2026-11-28", "the first bake day")
        ->group(group);
    add_value(
        app, "--days-apart", options.days_apart,
        [](const std::string& text) { return parse_count(text, 1, "no number of days"); }, "7",
        "from one bake day to the next (1 unless said)")
        ->group(group);
    add_value(app, "--start", options.start, read_clock, "08:00",
              "when the first dough is mixed (08:00 unless said)")
        ->group(group);
    const auto minutes = [](const std::string& text) { return parse_duration(text); };
    add_value(app, "--apart", options.apart, minutes, "20min",
              "between two doughs (20min unless said)")
        ->group(group);
    add_value(app, "--bake-time", options.bake_time, minutes, "45min",
              "how long the oven is taken (45min unless said)")
        ->group(group);
    add_value(
        app, "--seed", options.seed,
        [](const std::string& text) -> std::uint64_t {
            const auto number = parse_number(text);
            if (!number || *number < 0 || *number > 1e15 || *number != std::floor(*number))
                throw std::runtime_error("'" + text + "' is no whole number");
            return static_cast<std::uint64_t>(*number);
        },
        "4711", "what the shuffling follows from: the same seed\ngives the same plan")
        ->group(group);
}

void add_dough_options(CLI::App& app, TrialPlanOptions& options) {
    const std::string group = "What goes into the bowls";
    auto* formula = add_value(app, "--formula", options.formula, plain_text, "NAME",
                              "for amounts and the shopping list")
                        ->group(group);
    add_value(app, "--each", options.each, read_mass, "900g", "dough of each")
        ->needs(formula)
        ->group(group);
    app.add_flag("--sheets", options.sheets, "print a bench sheet for each dough, too")
        ->needs(formula)
        ->group(group);
}

}  // namespace

CLI::App& add_trial_plan(CLI::App& trial, TrialPlanOptions& options) {
    CLI::App& app = add_command(
        trial, "plan", "how many repeats a difference wants, and the bake days",
        "Plans a trial: how many bakes of each it takes to see the difference that you name, from "
        "how\n"
        "far repeats lie apart in your journal, and bake days with the control in each, order and "
        "oven\n"
        "place shuffled. With a formula it also says what goes into the bowls and what to buy. "
        "Nothing is\n"
        "kept unless you say --keep.");
    app.footer(
        "Examples:\n"
        "  loafmark trial plan --control 'Strong white' --variant Emmer --difference 8mm\n"
        "  loafmark trial plan --control white --variant emmer --variant spelt --difference 8mm "
        "\\\n"
        "      --formula country --each 900g --oven-place left --oven-place right \\\n"
        "      --first-day 2026-11-28 --sheets --keep 'Which flour'\n"
        "  loafmark trial plan --factor water --control 66% --variant 72% --measure openness \\\n"
        "      --difference 0.05 --repeats 2");
    add_variant_options(app, options.factor, options.control, options.variants);
    const std::string group = "What is to be seen";
    add_value(app, "--measure", options.measure, read_measure, "MEASURE",
              "of which measure (loaf_height unless said)")
        ->group(group);
    add_value(app, "--difference", options.difference_text, plain_text, "8mm",
              "the difference that is to be seen")
        ->required()
        ->group(group);
    add_value(app, "--scatter", options.scatter_text, plain_text, "4mm",
              "standard deviation of repeats on one day (from\nyour journal unless said)")
        ->group(group);
    add_value(app, "--chance", options.chance, read_percentage, "80%",
              "how surely it is to be seen (80% unless said)")
        ->group(group);
    add_value(
        app, "--repeats", options.repeats,
        [](const std::string& text) { return parse_count(text, 1, "no number of repeats"); }, "2",
        "bakes of each (as many as it takes unless said)")
        ->group(group);
    add_day_options(app, options);
    add_dough_options(app, options);
    add_value(app, "--keep", options.keep, plain_text, "NAME", "begin the trial by that name");
    app.add_flag("--json", options.json, "one JSON document instead of text");
    return app;
}

Minutes mixed_after(const TrialPlanOptions& options, std::size_t place) {
    const std::size_t places = options.oven_places.empty() ? 1 : options.oven_places.size();
    const double within = options.apart.count() * static_cast<double>(places);
    const double batch = std::max(
        within, options.oven_places.empty() ? options.apart.count() : options.bake_time.count());
    return Minutes(static_cast<double>(place / places) * batch +
                   static_cast<double>(place % places) * options.apart.count());
}

Outcome run(const TrialPlanOptions& options, const OpenJournal& open, const Context& context) {
    const auto journal = open.to_read();
    const PlanInWords plan = planned(options, journal, context);
    if (options.json) {
        context.out << plan_document(plan);
    } else {
        context.out << plan_text(plan, journal);
        if (options.sheets) context.out << plan_sheets(plan, journal);
    }
    if (options.keep) keep(plan, open, context);
    return Outcome::done;
}

}  // namespace loafmark::commands
