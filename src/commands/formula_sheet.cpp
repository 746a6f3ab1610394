#include "commands/formula_sheet.h"

#include <algorithm>
#include <ostream>

#include "arithmetic/numbers.h"
#include "arithmetic/quantities.h"
#include "cautions/cautions.h"
#include "commands/bench_water.h"
#include "commands/help_text.h"
#include "commands/named.h"
#include "commands/options.h"
#include "commands/text.h"
#include "commands/words.h"
#include "documents/text_table.h"

namespace loafmark::commands {
namespace {

using Rows = std::vector<std::vector<std::string>>;

// Differences of temperature: 4.4K, 4.4C or 8F.
FrictionKelvins parse_friction(const std::string& text) {
    const std::string unit = text.empty() ? "" : ascii_lower(text.substr(text.size() - 1));
    const auto number = parse_number(text.substr(0, text.empty() ? 0 : text.size() - 1));
    if (!number || (unit != "k" && unit != "c" && unit != "f"))
        throw std::runtime_error("'" + text +
                                 "' is no difference of temperature; write it as 4K or 8F");
    return FrictionKelvins(unit == "f" ? *number * 5 / 9 : *number);
}

// A pre-stage has a bowl of its own; all of it then goes into the dough.
void add_stage(Rows& rows, const journal::FormulaVersion& formula, const std::vector<Grams>& masses,
               const std::string& stage) {
    Grams bowl{0};
    const auto add = [&](const std::string& where, const std::string& what, Grams mass) {
        bowl = bowl + mass;
        rows.push_back({where, what, grams_text(mass, 2), grams_text(bowl, 2)});
    };
    for (std::size_t i = 0; i < masses.size(); ++i)
        if (formula.ingredients[i].stage == stage)
            add(stage, formula.ingredients[i].name, masses[i]);
}

std::vector<std::string> early_stages(const journal::FormulaVersion& formula) {
    std::vector<std::string> stages;
    for (const journal::Ingredient& line : formula.ingredients)
        if (line.stage != "dough" && std::ranges::find(stages, line.stage) == stages.end())
            stages.push_back(line.stage);
    return stages;
}

Grams stage_mass(const journal::FormulaVersion& formula, const std::vector<Grams>& masses,
                 const std::string& stage) {
    Grams sum{0};
    for (std::size_t i = 0; i < masses.size(); ++i)
        if (formula.ingredients[i].stage == stage) sum = sum + masses[i];
    return sum;
}

// What a starter is made of, so that it can be fed in time.
void add_starter(Rows& rows, const journal::Ingredient& line, Grams mass) {
    if (line.kind != IngredientKind::leaven || !(line.flour_fraction > Fraction(0))) return;
    rows.push_back({"the day before",
                    line.name + " ripe: " + grams_text(mass * line.flour_fraction.count(), 1) +
                        " flour and " + grams_text(mass * line.water_fraction.count(), 1) +
                        " water in it, what you keep beside",
                    grams_text(mass, 2), ""});
}

std::vector<Grams> weighed(const DoughSize& size, Grams step) {
    std::vector<Grams> masses;
    for (const journal::MixedAmount& amount : size.amounts)
        masses.push_back(amount.mass);
    return rounded_to_step(masses, step);
}

}  // namespace

std::vector<std::optional<std::string>> grains_of(const journal::FormulaVersion& formula,
                                                  const journal::Journal& journal) {
    std::vector<std::optional<std::string>> grains;
    for (const journal::Ingredient& line : formula.ingredients)
        if (line.flour) grains.push_back(journal.flour(*line.flour).grain);
    return grains;
}

std::string bench_list(const journal::FormulaVersion& formula, const std::vector<Grams>& masses) {
    Rows rows;
    for (std::size_t i = 0; i < masses.size(); ++i)
        add_starter(rows, formula.ingredients[i], masses[i]);
    const std::vector<std::string> stages = early_stages(formula);
    for (const std::string& stage : stages)
        add_stage(rows, formula, masses, stage);
    Grams bowl{0};
    const auto add = [&](const std::string& what, Grams mass) {
        bowl = bowl + mass;
        rows.push_back({"dough", what, grams_text(mass, 2), grams_text(bowl, 2)});
    };
    for (const std::string& stage : stages)
        add("all of the " + stage, stage_mass(formula, masses, stage));
    for (std::size_t i = 0; i < masses.size(); ++i)
        if (formula.ingredients[i].stage == "dough") add(formula.ingredients[i].name, masses[i]);
    using documents::Align;
    return documents::text_table(
        {{"when"}, {"add"}, {"grams", Align::right}, {"the bowl now weighs", Align::right}}, rows);
}

CLI::App& add_formula_sheet(CLI::App& formula, FormulaSheetOptions& options) {
    CLI::App& app = add_command(
        formula, "sheet", "the bench sheet: one list in order of time",
        "One list in order of time: what goes in, how much, and what the bowl weighs then, bowl "
        "not\n"
        "counted, so that a forgotten salt shows on the scales. With --dough-temperature and "
        "--room it\n"
        "also says how warm the water must be. What mixing adds is learnt from your bakes that "
        "note\n"
        "room, water and dough temperature.");
    app.footer(
        "Examples:\n"
        "  loafmark formula sheet country --loaves 2 --each 900g\n"
        "  loafmark formula sheet country --dough 900g --dough-temperature 25C --room 21C --tap "
        "14C\n"
        "  loafmark formula sheet country --dough 900g --dough-temperature 25C --room 21C \\\n"
        "      --friction 4K");
    add_value(app, "NAME", options.name, plain_text, "", "its name or part of it")->required();
    add_dough_size_options(app, options.size);
    add_value(app, "--step", options.step, read_mass, "1g",
              "what your scales show (as the kitchen's, else 1g)");
    const std::string group = "How warm the water must be";
    auto* wanted = add_value(app, "--dough-temperature", options.dough_temperature,
                             read_temperature, "25C", "the dough wanted after mixing")
                       ->group(group);
    auto* room = add_value(app, "--room", options.room, read_temperature, "21C", "the kitchen now")
                     ->needs(wanted)
                     ->group(group);
    wanted->needs(room);
    add_value(app, "--flour-temperature", options.flour_temperature, read_temperature, "20C",
              "the flour (as the room unless said)")
        ->needs(wanted)
        ->group(group);
    add_value(app, "--starter-temperature", options.starter_temperature, read_temperature, "23C",
              "the starter (as the room unless said)")
        ->needs(wanted)
        ->group(group);
    add_value(app, "--tap", options.tap, read_temperature, "14C",
              "your tap's coldest; below it, grams of ice")
        ->needs(wanted)
        ->group(group);
    add_value(app, "--friction", options.friction, parse_friction, "4K",
              "what mixing adds to the sum of the\ntemperatures (learnt from your bakes unless "
              "said)")
        ->needs(wanted)
        ->group(group);
    add_value(
        app, "--mixed-by", options.mixed_by,
        [](const std::string& text) { return parse_word(text, journal::mixing_words, "neither"); },
        "hand|machine", "learn from bakes mixed so")
        ->needs(wanted)
        ->group(group);
    return app;
}

Outcome run(const FormulaSheetOptions& options, const journal::Journal& journal,
            const Context& context) {
    const journal::FormulaVersion formula = named_formula(journal, options.name);
    const DoughSize size = dough_size(options.size, formula, journal, context.today);
    const std::vector<Grams> masses = weighed(size, scale_step(options.step, journal));
    context.out << formula.name << ", version " << formula.version << ", " << to_text(context.today)
                << "\n"
                << size.note << "\n"
                << bench_list(formula, masses) << "\n";
    if (size.loaves > 1)
        context.out << "Divide into " << size.loaves << " of "
                    << grams_text(size.dough / size.loaves, 0) << ".\n";
    if (options.dough_temperature)
        context.out << water_text({.wanted = *options.dough_temperature,
                                   .room = options.room.value(),
                                   .flour = options.flour_temperature,
                                   .starter = options.starter_temperature,
                                   .tap = options.tap,
                                   .friction = options.friction,
                                   .mixed_by = options.mixed_by,
                                   .degrees = degrees_of(journal.kitchen().facts)},
                                  formula, masses, journal.find());
    context.out << cautions::at_the_bench() << cautions::of_grains(grains_of(formula, journal));
    return Outcome::done;
}

}  // namespace loafmark::commands
