#include "commands/bake_adjust.h"

#include <algorithm>
#include <ostream>

#include "arithmetic/bench.h"
#include "arithmetic/quantities.h"
#include "commands/bake_facts_options.h"
#include "commands/help_text.h"
#include "commands/named.h"
#include "commands/options.h"
#include "commands/text.h"
#include "commands/words.h"
#include "journal/amounts.h"

namespace loafmark::commands {
namespace {

using Mixed = std::vector<journal::MixedAmount>;

// Less than this does not show on kitchen scales.
constexpr Grams too_little{0.5};

Addition addition_to(const Mixed& mixed, Fraction hydration) {
    const auto addition = addition_for(journal::parts_of(mixed), hydration);
    if (!addition)
        throw Failure("the bake holds no flour", "loafmark bake show shows what it holds");
    return *addition;
}

void add_water(Mixed& mixed, Grams water) {
    // The last: a soaker's water comes before the dough's.
    for (auto amount = mixed.rbegin(); amount != mixed.rend(); ++amount) {
        if (amount->kind != IngredientKind::water) continue;
        amount->mass = amount->mass + water;
        return;
    }
    mixed.push_back({.kind = IngredientKind::water,
                     .name = "water",
                     .flour = std::nullopt,
                     .bag = std::nullopt,
                     .mass = water,
                     .water_fraction = Fraction(1),
                     .flour_fraction = Fraction(0)});
}

// Of each flour in the bowl in proportion, so that the shares stay.
void add_flour(Mixed& mixed, Grams flour) {
    Grams in_bowl{0};
    for (const journal::MixedAmount& amount : mixed)
        if (amount.kind == IngredientKind::flour) in_bowl = in_bowl + amount.mass;
    if (!(in_bowl > Grams(0)))
        throw Failure("all flour of the bake is in its starter", "put it right with bake edit");
    for (journal::MixedAmount& amount : mixed)
        if (amount.kind == IngredientKind::flour) amount.mass = amount.mass * (1 + flour / in_bowl);
}

Mixed with_addition(Mixed mixed, const Addition& addition) {
    if (addition.water > Grams(0)) add_water(mixed, addition.water);
    if (addition.flour > Grams(0)) add_flour(mixed, addition.flour);
    return mixed;
}

// "15 g of water"; of several flours how much of each.
std::string addition_text(const Mixed& before, const Mixed& after, const Addition& addition) {
    if (addition.water > Grams(0)) return grams_text(addition.water) + " of water";
    std::string text;
    for (std::size_t i = 0; i < before.size(); ++i)
        if (before[i].kind == IngredientKind::flour)
            text += (text.empty() ? "" : ", ") + grams_text(after[i].mass - before[i].mass) +
                    " of " + before[i].name;
    return text;
}

}  // namespace

CLI::App& add_bake_adjust(CLI::App& bake, BakeAdjustOptions& options) {
    CLI::App& app = add_command(
        bake, "adjust", "tells what to add now for another hydration",
        "Tells how much water, or of which flours, to add to the bowl for the dough to reach that\n"
        "hydration. Nothing is changed until you say --done: then it counts as mixed.");
    app.footer(
        "Examples:\n"
        "  loafmark bake adjust last --to 68%\n"
        "  loafmark bake adjust last --to 68% --done");
    add_value(app, "BAKE", options.bake, plain_text, "",
              "last, a date, a number, part of its title")
        ->required();
    add_value(app, "--to", options.to, read_percentage, "68%", "the hydration wanted")->required();
    app.add_flag("--done", options.done, "it went in: count it as mixed");
    app.add_flag("--sure", options.sure, "so dry or so wet a dough is meant");
    return app;
}

CLI::App& add_bake_mark(CLI::App& bake, BakeMarkOptions& options) {
    CLI::App& app = add_command(
        bake, "mark", "stamps a step of a bake, now",
        "Notes that a step begins now: mix, rest, knead, fold, bulk fermentation, divide, shape, "
        "final\n"
        "proof, score, bake, cool, cut; mixed, shaped and other spellings are understood.");
    app.footer(
        "Examples:\n"
        "  loafmark bake mark last shaped\n"
        "  loafmark bake mark last bake --temperature 230C\n"
        "  loafmark bake mark last fold --at 10:30");
    add_value(app, "BAKE", options.bake, plain_text, "",
              "last, a date, a number, part of its title")
        ->required();
    add_value(app, "STEP", options.step, read_step, "", "what begins")->required();
    add_value(app, "--at", options.at, plain_text, "10:30",
              "when it began, on the bake's day (now unless said)");
    add_value(
        app, "--lasted", options.lasted,
        [](const std::string& text) { return parse_duration(text); }, "70min", "how long it took");
    add_value(app, "--temperature", options.temperature, read_temperature, "230C",
              "of the oven when baking, else of the dough");
    return app;
}

Outcome run(const BakeAdjustOptions& options, journal::Journal& journal, const Context& context) {
    const journal::BakeEntry bake = named_bake(journal, options.bake, context.today);
    ask_about_hydration(options.to, options.sure);
    const Addition addition = addition_to(bake.bake.mixed, options.to);
    const std::string head =
        "Bake " + std::to_string(bake.bake.id.value) + " is at " + percent_text(bake.hydration);
    if (addition.water < too_little && addition.flour < too_little) {
        context.out << head << ": nothing to add.\n";
        return Outcome::done;
    }
    journal::BakeChange change;
    change.mixed = with_addition(bake.bake.mixed, addition);
    const std::string what = addition_text(bake.bake.mixed, *change.mixed, addition);
    if (!options.done) {
        context.out << head << ": add " << what << " for " << percent_text(options.to)
                    << ". When it is in, say the same with --done.\n";
        return Outcome::done;
    }
    const journal::BakeEntry after = journal.change_bake(bake.bake.id, change);
    context.out << "Added " << what << " to bake " << after.bake.id.value << ": hydration as mixed "
                << percent_text(after.hydration) << ".\n";
    return Outcome::done;
}

Outcome run(const BakeMarkOptions& options, journal::Journal& journal, const Context& context) {
    const journal::BakeEntry bake = named_bake(journal, options.bake, context.today);
    journal::BakeStep step;
    step.step = options.step;
    step.began = options.at ? reading_option(
                                  "--at", [&] { return read_moment(*options.at, bake.bake.date); })
                            : context.now_local();
    step.lasted = options.lasted;
    step.temperature = options.temperature;
    (void)journal.add_step(bake.bake.id, step);
    context.out << "Bake " << bake.bake.id.value << ": " << step.step << ", " << *step.began
                << ".\n";
    return Outcome::done;
}

}  // namespace loafmark::commands
