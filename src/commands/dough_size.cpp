#include "commands/dough_size.h"

#include <algorithm>

#include "arithmetic/near_names.h"
#include "arithmetic/numbers.h"
#include "arithmetic/quantities.h"
#include "commands/messages.h"
#include "commands/named.h"
#include "commands/options.h"
#include "commands/text.h"
#include "commands/words.h"
#include "journal/amounts.h"
#include "statistics/quantiles.h"

namespace loafmark::commands {
namespace {

// Common practice, no source: a lean white dough fills a tin well at about this.
constexpr double usual_fill_g_per_ml = 0.5;

double parse_fill(const std::string& text) {
    std::string number = text;
    for (const char* unit : {"g/ml", "g/mL"})
        if (number.ends_with(unit)) number.resize(number.size() - 4);
    const auto value = parse_number(number);
    if (number == text || !value || !(*value > 0 && *value < 2))
        throw std::runtime_error("'" + text + "' is no dough per tin volume; write it as 0.5g/ml");
    return *value;
}

journal::Tin tin_called(const std::string& name, const journal::Journal& journal) {
    std::vector<std::string> names;
    for (const journal::Tin& tin : journal.kitchen().tins) {
        if (folded(tin.name) == folded(name)) return tin;
        names.push_back(tin.name);
    }
    const std::string near = did_you_mean(near_names(name, names));
    throw Failure("the kitchen has no tin '" + name + "'",
                  (near.empty() ? "" : near + " Or ") + "tell of it: loafmark kitchen set --tin '" +
                      name + "=1.8l'");
}

// Dough per volume of the loaves that were baked in this tin.
std::vector<double> fills_so_far(const journal::Tin& tin, const journal::Journal& journal) {
    std::vector<double> fills;
    for (const journal::BakeEntry& bake : journal.find())
        for (const journal::LoafEntry& loaf : bake.loaves)
            if (!bake.bake.set_aside && loaf.loaf.tin && loaf.loaf.dough_mass &&
                folded(*loaf.loaf.tin) == folded(tin.name))
                fills.push_back(loaf.loaf.dough_mass->count() / tin.volume->count());
    return fills;
}

struct DoughOfLoaf {
    Grams mass;
    std::string note;
};

DoughOfLoaf dough_by_tin(const DoughSizeTyped& typed, const journal::Journal& journal) {
    const journal::Tin tin = tin_called(*typed.tin, journal);
    if (!tin.volume)
        throw Failure("the volume of the tin '" + tin.name + "' is not known",
                      "tell it: loafmark kitchen set --tin '" + tin.name + "=1.8l'");
    double fill = usual_fill_g_per_ml;
    std::string why = "common practice, no source";
    if (typed.fill_g_per_ml) {
        fill = *typed.fill_g_per_ml;
        why = "as said";
    } else if (const auto so_far = fills_so_far(tin, journal); !so_far.empty()) {
        fill = statistics::median(so_far).value_or(fill);
        why = "the middle of your " + counted(so_far.size(), "loaf", "loaves") + " in it";
    }
    return {Grams(fill * tin.volume->count()), tin.name + ", " + to_text(*tin.volume) + ": " +
                                                   number_text(fill, 3) + " g of dough per ml (" +
                                                   why + ")\n"};
}

DoughOfLoaf dough_as_in(const std::string& text, const journal::Journal& journal, Date today) {
    const journal::BakeEntry bake = named_bake(journal, text, today);
    const auto& mass = bake.loaves.front().loaf.dough_mass;
    if (!mass)
        throw Failure("the dough mass of the loaves of bake " + std::to_string(bake.bake.id.value) +
                          " is not known",
                      "say it: --each 900g");
    return {*mass, "as much dough a loaf as in bake " + std::to_string(bake.bake.id.value) + "\n"};
}

DoughOfLoaf dough_of_loaf(const DoughSizeTyped& typed, const journal::Journal& journal,
                          Date today) {
    if (typed.each) return {*typed.each, ""};
    if (typed.tin) return dough_by_tin(typed, journal);
    return dough_as_in(*typed.same_as, journal, today);
}

void check(const DoughSizeTyped& typed) {
    const int ways = typed.dough.has_value() + typed.flour.has_value() + typed.each.has_value() +
                     typed.tin.has_value() + typed.same_as.has_value();
    if (ways != 1)
        throw UsageError("say in one way how much: dough, flour, dough of each loaf, tin or bake",
                         "write --dough 900g, --flour 500g, --loaves 2 --each 900g, --tin 'small "
                         "tin' or --same-dough-as last");
    if (typed.fill_g_per_ml && !typed.tin)
        throw UsageError("--fill says how full a tin is, and none is named",
                         "write --tin 'small tin' besides");
    for (const auto& [option, mass] :
         {std::pair{"--dough", typed.dough}, std::pair{"--flour", typed.flour},
          std::pair{"--each", typed.each}})
        if (mass && !(*mass > Grams(0)))
            throw UsageError(std::string(option) + " is nothing", "give more than 0g");
}

}  // namespace

void add_dough_size_options(CLI::App& app, DoughSizeTyped& typed) {
    const std::string group = "How much, in one way";
    add_value(app, "--dough", typed.dough, read_mass, "900g", "how much dough in all")
        ->group(group);
    add_value(app, "--flour", typed.flour, read_mass, "500g",
              "or how much flour in all, the starter's included")
        ->group(group);
    add_value(app, "--each", typed.each, read_mass, "900g", "or how much dough a loaf")
        ->group(group);
    add_value(app, "--tin", typed.tin, plain_text, "NAME", "or what fills this tin of the kitchen")
        ->group(group);
    add_value(app, "--fill", typed.fill_g_per_ml, parse_fill, "0.5g/ml",
              "dough per tin volume (as in your loaves in it,\nelse 0.5)")
        ->group(group);
    add_value(app, "--same-dough-as", typed.same_as, plain_text, "BAKE",
              "or as much dough a loaf as that bake had, for a\nfair comparison in one tin")
        ->group(group);
    add_value(
        app, "--loaves", typed.loaves,
        [](const std::string& text) { return parse_count(text, 1, "no number of loaves"); }, "2",
        "how many loaves (1 unless said)")
        ->group(group);
}

DoughSize dough_size(const DoughSizeTyped& typed, const journal::FormulaVersion& formula,
                     const journal::Journal& journal, Date today) {
    check(typed);
    DoughSize size;
    size.loaves = typed.loaves.value_or(1);
    if (typed.flour) {
        size.amounts = journal::amounts_for_flour(formula.ingredients, *typed.flour);
    } else if (typed.dough) {
        size.amounts = journal::amounts_for_dough(formula.ingredients, *typed.dough);
    } else {
        const DoughOfLoaf loaf = dough_of_loaf(typed, journal, today);
        size.note = loaf.note;
        size.amounts = journal::amounts_for_dough(formula.ingredients, loaf.mass * size.loaves);
    }
    for (const journal::MixedAmount& amount : size.amounts)
        size.dough = size.dough + amount.mass;
    return size;
}

Grams scale_step(std::optional<Grams> said, const journal::Journal& journal) {
    if (said && !(*said > Grams(0))) throw UsageError("--step is nothing", "give more than 0g");
    return said ? *said : journal.kitchen().facts.scale_step.value_or(Grams(1));
}

}  // namespace loafmark::commands
