// The options of loafmark bake add.
#include "commands/bake.h"
#include "commands/help_text.h"
#include "commands/options.h"
#include "commands/words.h"

namespace loafmark::commands {
namespace {

void add_mixing_options(CLI::App& app, BakeAddOptions& options) {
    const std::string group = "What was mixed";
    add_value(app, "--dough", options.dough, read_mass, "900g", "how much dough in all")
        ->group(group);
    add_value(app, "--flour", options.flour, plain_text, "500g|NAME",
              "or how much flour in all; a name instead: the\nflour that it was baked with")
        ->group(group);
    add_repeated(app, "--with", options.with, parse_named_mass, "water=335g",
                 "an ingredient weighed otherwise than the\nformula asks; may be repeated")
        ->group(group);
    add_repeated(
        app, "--bag", options.bags,
        [](const std::string& text) { return parse_count(text, 1, "no bag's number"); }, "3",
        "the bag its flour came from (the oldest open one\nunless said); may be repeated")
        ->group(group);
    app.add_flag("--sure", options.sure, "so dry or so wet a dough is meant")->group(group);
}

}  // namespace

CLI::App& add_bake_add(CLI::App& bake, BakeAddOptions& options) {
    CLI::App& app = add_command(
        bake, "add", "adds a bake",
        "Adds a bake of a formula. What went into the bowl is the formula's amounts, except what\n"
        "you say was weighed otherwise; hydration as mixed follows from that. --like takes "
        "formula,\n"
        "amounts, tins, leaven and mixing from another bake. What you leave out is unknown, never\n"
        "guessed; loafmark bake edit fills it in later. With no formula or no amount named it asks "
        "on\n"
        "the terminal.");
    app.footer(
        "Examples:\n"
        "  loafmark bake add                       asks line by line\n"
        "  loafmark bake add --formula country --dough 900g --tin 'small tin' --baked 820g\n"
        "  loafmark bake add --like last --flour emmer\n"
        "  loafmark bake add --formula country --date '20 November' --flour 500g \\\n"
        "      --with water=365g --free-form --handling slack\n"
        "  loafmark bake add --formula country --dough 1.8kg --loaves 2 --baked 815g --baked 822g "
        "\\\n"
        "      --step bulk=3h --step 'bake=45min@230C'");
    auto* formula = add_value(app, "--formula", options.formula, plain_text, "NAME",
                              "its formula, or part of the name");
    add_value(app, "--like", options.like, plain_text, "BAKE",
              "as that bake (last, a number, a date...)")
        ->excludes(formula);
    add_value(app, "--date", options.date, plain_text, "2026-11-20", "the day (today unless said)");
    add_value(app, "--title", options.title, plain_text, "TEXT",
              "what to call it (the formula's name unless said)");
    add_mixing_options(app, options);
    add_dough_facts_options(app, options.facts);
    add_repeated(app, "--step", options.steps, parse_step, "bulk=3h",
                 "a step and how long it took, with @230C the\ntemperature too; may be repeated")
        ->group("The dough");
    const std::string baking = "The loaves";
    add_value(
        app, "--loaves", options.loaves,
        [](const std::string& text) { return parse_count(text, 1, "no number of loaves"); }, "2",
        "how many (1 unless said)")
        ->group(baking);
    auto* tin = add_value(app, "--tin", options.tin, plain_text, "NAME", "the tin")->group(baking);
    app.add_flag("--free-form", options.free_form, "baked without a tin")
        ->excludes(tin)
        ->group(baking);
    add_repeated(app, "--baked", options.baked, read_mass, "820g",
                 "what a baked loaf weighs; one for each")
        ->group(baking);
    add_loaf_facts_options(app, options.loaf);
    return app;
}

}  // namespace loafmark::commands
