// Asking on the terminal for what loafmark bake add was not told.
#include <algorithm>
#include <cmath>
#include <ostream>

#include "arithmetic/near_names.h"
#include "arithmetic/quantities.h"
#include "commands/bake.h"
#include "commands/kitchen.h"
#include "commands/messages.h"
#include "commands/named.h"
#include "commands/prompts.h"
#include "commands/text.h"
#include "commands/words.h"
#include "journal/amounts.h"

namespace loafmark::commands {
namespace {

std::optional<journal::BakeEntry> newest(const std::vector<journal::BakeEntry>& bakes) {
    const auto number = [](const journal::BakeEntry& bake) { return bake.bake.id; };
    const auto last = std::ranges::max_element(bakes, {}, number);
    return last == bakes.end() ? std::nullopt : std::optional(*last);
}

std::string few_of(const std::vector<std::string>& names) {
    constexpr std::size_t most = 6;
    std::string text;
    for (std::size_t i = 0; i < names.size() && i < most; ++i)
        text += (i > 0 ? ", " : "") + names[i];
    return names.size() > most ? text + "..." : text;
}

// The questions of one bake. Answers go into `options`; what is there already is not asked for.
class Asking {
  public:
    Asking(BakeAddOptions& options, const journal::Journal& journal, const Context& context)
        : options_(options),
          journal_(journal),
          context_(context),
          degrees_(degrees_of(journal.kitchen().facts)) {}

    void what_is_needed() {
        if (!options_.formula) ask_for_formula();
        const auto formula = named_formula(journal_, *options_.formula);
        journal::Filter of_formula;
        of_formula.formula = formula.formula;
        before_ = newest(journal_.find(of_formula));
        if (!amount_said(options_)) ask_for_dough();
        ask_whether_meant(formula);
    }

    void what_is_noted() {
        if (!options_.loaves) ask_for_loaves();
        if (!options_.tin && !options_.free_form) ask_for_tin();
        ask_about_dough();
        if (options_.baked.empty()) ask_for_baked_masses();
    }

  private:
    void ask_for_formula() {
        std::vector<std::string> names;
        for (const journal::FormulaVersion& formula : journal_.formulas())
            names.push_back(formula.name);
        const auto last = newest(journal_.find());
        std::optional<std::string> usual;
        if (last)
            usual = last->formula_name;
        else if (names.size() == 1)
            usual = names.front();
        while (!options_.formula)
            options_.formula = ask_with_usual(
                context_, "Formula (" + few_of(names) + ")", usual,
                [](const std::string& name) { return name; },
                [&](const std::string& text) { return named_formula(journal_, text).name; });
    }

    void ask_for_dough() {
        std::optional<Grams> usual;
        if (before_) {
            usual = Grams(0);
            for (const journal::MixedAmount& amount : before_->bake.mixed)
                usual = *usual + amount.mass;
        }
        while (!options_.dough)
            options_.dough = ask_with_usual(
                context_, "How much dough in all (g)", usual,
                [](Grams mass) { return to_text(Grams(std::round(mass.count()))); },
                [](const std::string& text) { return more_than_nothing(in_unit(text, "g")); });
    }

    void ask_whether_meant(const journal::FormulaVersion& formula) {
        if (!options_.with.empty()) return;  // judged with what was truly weighed
        const auto figures = figures_of(
            journal::parts_of(journal::amounts_for_dough(formula.ingredients, Grams(1000))));
        try {
            ask_about_hydration(figures ? std::optional(figures->hydration) : std::nullopt,
                                options_.sure);
        } catch (const UsageError& odd) {
            context_.err << formula.name << ": " << odd.what() << ".\n";
            options_.sure = ask_yes_or_no(context_, "Is it meant?");
            if (!options_.sure)
                throw Failure("the bake was not added",
                              "loafmark formula add --new-version puts "
                              "the formula right");
        }
    }

    void ask_for_loaves() {
        const int usual = before_ ? static_cast<int>(before_->loaves.size()) : 1;
        options_.loaves = ask_with_usual(
            context_, "How many loaves", std::optional(std::max(usual, 1)),
            [](int number) { return std::to_string(number); },
            [](const std::string& text) { return parse_count(text, 1, "no number of loaves"); });
    }

    void ask_for_tin() {
        std::vector<std::string> tins;
        for (const journal::Tin& tin : journal_.kitchen().tins)
            tins.push_back(tin.name);
        std::optional<std::string> usual;
        if (before_ && !before_->loaves.empty()) {
            const journal::Loaf& loaf = before_->loaves.front().loaf;
            usual =
                loaf.free_form.value_or(false) ? std::optional<std::string>("free-form") : loaf.tin;
        }
        std::vector<std::string> known = tins;
        known.emplace_back("free-form");
        if (usual && std::ranges::find(known, *usual) == known.end()) known.push_back(*usual);
        const auto as_typed = [](const std::string& name) { return name; };
        auto baked_in = ask_with_usual(
            context_,
            "Baked in (" + few_of(tins) + (tins.empty() ? "a tin's name" : "") + " or free-form)",
            usual, as_typed, as_typed);
        if (baked_in) baked_in = tin_meant(*baked_in, known);
        options_.free_form = baked_in == "free-form";
        if (!options_.free_form) options_.tin = baked_in;
    }

    // As the kitchen spells it; another name is a new tin, unless one that is near it was meant.
    [[nodiscard]] std::string tin_meant(const std::string& text,
                                        const std::vector<std::string>& known) const {
        for (const std::string& name : known)
            if (folded(name) == folded(text)) return name;
        for (const std::string& near : near_names(text, known))
            if (ask_yes_or_no(context_,
                              "'" + text + "' is a new tin. Did you mean '" + near + "'?"))
                return near;
        return text;
    }

    void ask_about_dough() {
        const auto word = [](const std::string& text) { return text; };
        const auto warm = [this](Celsius temperature) {
            return degrees_ == Degrees::fahrenheit ? number_text(fahrenheit(temperature)) + "F"
                                                   : number_text(temperature.degrees()) + "C";
        };
        const std::string unit = degrees_ == Degrees::fahrenheit ? "F" : "C";
        if (!options_.facts.dough_temperature)
            options_.facts.dough_temperature =
                ask_with_usual(context_, "The dough after mixing (" + unit + ")",
                               before_ ? before_->bake.dough_temperature : std::nullopt, warm,
                               [&](const std::string& text) {
                                   return read_dough_temperature(in_unit(text, unit));
                               });
        if (!options_.facts.handling)
            options_.facts.handling = ask_with_usual(
                context_, "It handled (" + words_in_a_row(journal::handling_words) + ")",
                before_ ? before_->bake.handling : std::nullopt, word, [](const std::string& text) {
                    return parse_word(text, journal::handling_words, "no handling");
                });
        if (!options_.loaf.dent)
            options_.loaf.dent = ask_with_usual(
                context_,
                "A finger's dent, before the oven (" + words_in_a_row(journal::dent_words) + ")",
                before_ && !before_->loaves.empty() ? before_->loaves.front().loaf.facts.dent
                                                    : std::nullopt,
                word, [](const std::string& text) {
                    return parse_word(text, journal::dent_words, "no dent");
                });
    }

    // The last bake's masses are shown, never taken over: they are no masses of these loaves.
    void ask_for_baked_masses() {
        const int loaves = options_.loaves.value_or(1);
        for (int i = 0; i < loaves; ++i) {
            std::string question = loaves > 1 ? "Loaf " + std::to_string(i + 1) : "The loaf";
            question += " weighs baked (g); Enter: not yet known";
            const auto place = static_cast<std::size_t>(i);
            if (before_ && place < before_->loaves.size() && before_->loaves[place].loaf.baked_mass)
                question += " (last time " + to_text(*before_->loaves[place].loaf.baked_mass) + ")";
            const auto mass = ask_or_leave(context_, question + ":", [&](const std::string& text) {
                return below_dough(more_than_nothing(in_unit(text, "g")));
            });
            if (!mass) return;  // masses are told in order
            options_.baked.push_back(*mass);
        }
    }

    // An oven adds nothing.
    [[nodiscard]] Grams below_dough(Grams baked) const {
        if (options_.dough && baked > *options_.dough)
            throw std::runtime_error(to_text(baked) + " is more than all the dough, " +
                                     to_text(*options_.dough));
        return baked;
    }

    BakeAddOptions& options_;
    const journal::Journal& journal_;
    const Context& context_;
    Degrees degrees_;
    std::optional<journal::BakeEntry> before_;  // the last one of the same formula
};

void offer_kitchen(journal::Journal& journal, const Context& context) {
    const journal::Kitchen known = journal.kitchen();
    const bool told =
        known.facts != journal::KitchenFacts{} || !known.tins.empty() || !known.tasters.empty();
    journal::Filter any;
    any.limit = 1;
    if (told || !journal.find(any).empty()) return;
    if (!ask_yes_or_no(context, "Your kitchen is not known yet. Tell of it first?", false)) {
        context.err << "Later, then: loafmark kitchen set.\n";
        return;
    }
    (void)journal.change_kitchen(ask_about_kitchen(known, context));
    context.err << "\n";
}

}  // namespace

bool amount_said(const BakeAddOptions& options) {
    return options.dough || (options.flour && is_mass(*options.flour));
}

BakeAddOptions asked_for(const BakeAddOptions& said, journal::Journal& journal,
                         const Context& context) {
    return or_else_said(
        [&] {
            BakeAddOptions options = said;
            if (journal.formulas().empty())
                throw Failure("the journal has no formula yet, and a bake is of one",
                              "add flour and formula first: loafmark flour add --help, loafmark "
                              "formula add --help");
            if (options.date) (void)past_date("--date", *options.date, context.today);
            offer_kitchen(journal, context);
            Asking asking(options, journal, context);
            context.err
                << "A bake. Enter takes what stands in [ ], or leaves it unknown; - leaves it "
                   "unknown.\n";
            asking.what_is_needed();
            (void)bake_of(options, journal, context);  // before more is asked in vain
            asking.what_is_noted();
            return options;
        },
        "the bake was not added");
}

}  // namespace loafmark::commands
