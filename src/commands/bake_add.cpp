// What loafmark bake add does.
#include <algorithm>
#include <ostream>
#include <set>

#include "arithmetic/near_names.h"
#include "arithmetic/quantities.h"
#include "commands/bag_text.h"
#include "commands/bake.h"
#include "commands/messages.h"
#include "commands/named.h"
#include "commands/options.h"
#include "commands/prompts.h"
#include "commands/text.h"
#include "journal/amounts.h"

namespace loafmark::commands {
namespace {

using Mixed = std::vector<journal::MixedAmount>;

void weigh_otherwise(Mixed& mixed, const NamedMass& weighed) {
    std::vector<std::string> names;
    for (journal::MixedAmount& amount : mixed) {
        if (folded(amount.name) == folded(weighed.name)) {
            amount.mass = weighed.mass;
            return;
        }
        names.push_back(amount.name);
    }
    std::string all;
    for (const std::string& name : names)
        all += (all.empty() ? "'" : ", '") + name + "'";
    const std::string near = did_you_mean(near_names(weighed.name, names, 2));
    throw UsageError("--with names '" + weighed.name + "', which the formula has not",
                     (near.empty() ? "" : near + " ") + "it has " + all);
}

struct Said {
    std::optional<Grams> dough;
    std::optional<Grams> flour;
    std::optional<std::string> flour_name;
};

Said what_is_said(const BakeAddOptions& options) {
    Said said{.dough = options.dough, .flour = std::nullopt, .flour_name = std::nullopt};
    if (!options.flour) return said;
    if (is_mass(*options.flour))
        said.flour = reading_option("--flour", [&] { return parse_mass(*options.flour); });
    else
        said.flour_name = options.flour;
    return said;
}

Grams sum_of(const Mixed& mixed, bool flour_only) {
    Grams sum{0};
    for (const journal::MixedAmount& amount : mixed)
        sum = sum + amount.mass * (flour_only ? amount.flour_fraction.count() : 1);
    return sum;
}

// Another bake's amounts, for as much dough or flour as is said, else as they were.
Mixed amounts_like(const journal::BakeEntry& like, const Said& said) {
    Mixed mixed = like.bake.mixed;
    const double scale = said.dough   ? *said.dough / sum_of(mixed, false)
                         : said.flour ? *said.flour / sum_of(mixed, true)
                                      : 1;
    for (journal::MixedAmount& amount : mixed) {
        amount.mass = amount.mass * scale;
        amount.bag.reset();  // that bag may be empty by now
    }
    return mixed;
}

Mixed amounts_of_formula(const journal::FormulaVersion& formula, const Said& said) {
    if (said.dough.has_value() == said.flour.has_value())
        throw UsageError("say how much dough or how much flour was mixed",
                         "write --dough 900g or --flour 500g");
    return said.dough ? journal::amounts_for_dough(formula.ingredients, *said.dough)
                      : journal::amounts_for_flour(formula.ingredients, *said.flour);
}

// One flour in the place of the only one, or of the one that most of the dough is made of.
void swap_flour(Mixed& mixed, const journal::Flour& flour) {
    const auto mass_of_flour = [](const journal::MixedAmount& amount) {
        return amount.kind == IngredientKind::flour ? amount.mass.count() : -1;
    };
    const auto main = std::ranges::max_element(mixed, {}, mass_of_flour);
    if (main == mixed.end() || main->kind != IngredientKind::flour) return;
    const auto old = main->flour;
    for (journal::MixedAmount& amount : mixed) {
        if (amount.flour != old) continue;
        amount.flour = flour.id;
        amount.bag.reset();
        if (amount.kind == IngredientKind::flour) amount.name = flour.name;
    }
}

void draw_on(Mixed& mixed, const std::vector<int>& bags, const journal::Journal& journal) {
    for (const int number : bags) {
        const auto id = journal::BagId{number};
        const journal::Bag bag = journal.bag(id);
        bool used = false;
        for (journal::MixedAmount& amount : mixed) {
            if (!(amount.flour_fraction > Fraction(0)) || amount.flour != bag.flour) continue;
            amount.bag = id;
            used = true;
        }
        if (!used)
            throw UsageError("--bag " + std::to_string(number) + " holds '" +
                                 journal.flour(bag.flour).name + "', which was not mixed",
                             "loafmark bag list shows which bag is which");
    }
}

std::vector<journal::NewLoaf> loaves_of(const BakeAddOptions& options, const Mixed& mixed,
                                        const journal::BakeEntry* like) {
    const auto count = options.loaves ? static_cast<std::size_t>(*options.loaves)
                       : like         ? like->loaves.size()
                                      : 1;
    if (options.baked.size() > count)
        throw UsageError(
            "--baked is given " + std::to_string(options.baked.size()) + " times for " +
                counted(count, "loaf", "loaves"),
            "say how many loaves there are with --loaves " + std::to_string(options.baked.size()));
    const Grams dough = sum_of(mixed, false);
    std::vector<journal::NewLoaf> loaves(count);
    for (std::size_t i = 0; i < count; ++i) {
        if (like && i < like->loaves.size()) {
            loaves[i].tin = like->loaves[i].loaf.tin;
            loaves[i].free_form = like->loaves[i].loaf.free_form;
        }
        if (options.tin || options.free_form) {
            loaves[i].tin = options.tin;
            loaves[i].free_form = options.free_form;
        }
        loaves[i].dough_mass = dough / static_cast<double>(count);
        if (i < options.baked.size()) loaves[i].baked_mass = options.baked[i];
        loaves[i].facts = options.loaf;
    }
    return loaves;
}

// The formula tells of a starter; which yeast it is, the kitchen.
std::optional<std::string> usual_leaven(const Mixed& mixed, const journal::Journal& journal) {
    for (const journal::MixedAmount& amount : mixed) {
        if (amount.kind != IngredientKind::leaven) continue;
        if (amount.flour_fraction > Fraction(0)) return "starter";
        const auto usual = journal.kitchen().facts.leaven;
        return usual == "starter" ? std::nullopt : usual;
    }
    return std::nullopt;
}

void take_facts(journal::NewBake& bake, const BakeAddOptions& options,
                const journal::BakeEntry* like, const journal::Journal& journal) {
    bake.facts = options.facts.facts;
    if (like) {
        const journal::BakeFacts& before = like->bake.facts;
        if (!bake.facts.leaven) bake.facts.leaven = before.leaven;
        if (!bake.facts.mixed_by) bake.facts.mixed_by = before.mixed_by;
        if (!bake.facts.folds) bake.facts.folds = before.folds;
    }
    if (!bake.facts.leaven) bake.facts.leaven = usual_leaven(bake.mixed, journal);
    bake.room_temperature = options.facts.room;
    bake.dough_temperature = options.facts.dough_temperature;
    bake.handling = options.facts.handling;
    bake.notes = options.facts.note;
    bake.steps = options.steps;
}

void warn_of_bags(const journal::BakeEntry& bake, const journal::Journal& journal,
                  const Context& context) {
    std::vector<NamedBag> bags;
    std::set<journal::BagId> seen;
    for (const journal::MixedAmount& amount : bake.bake.mixed) {
        if (!amount.bag || !seen.insert(*amount.bag).second) continue;
        const journal::Bag bag = journal.bag(*amount.bag);
        bags.push_back({bag, journal.flour(bag.flour).name});
    }
    context.err << overdrawn_text(bags);
}

// What there is to ask for: a formula and an amount, unless they are another bake's.
bool says_too_little(const BakeAddOptions& options) {
    return !options.like && (!options.formula || !amount_said(options));
}

}  // namespace

bool is_mass(const std::string& flour) {
    return !flour.empty() &&
           std::string_view("0123456789-.,").find(flour.front()) != std::string_view::npos;
}

journal::NewBake bake_of(const BakeAddOptions& options, const journal::Journal& journal,
                         const Context& context) {
    journal::NewBake bake;
    bake.date = options.date ? past_date("--date", *options.date, context.today) : context.today;
    if (!options.formula && !options.like)
        throw UsageError("no formula is named",
                         "name it with --formula NAME, or a bake with --like last");
    std::optional<journal::BakeEntry> like;
    if (options.like) like = named_bake(journal, *options.like, context.today);
    const journal::FormulaVersion formula = like ? journal.formula(like->bake.formula_version)
                                                 : named_formula(journal, *options.formula);
    const Said said = what_is_said(options);
    bake.title = options.title;
    bake.formula_version = formula.id;
    bake.mixed = like ? amounts_like(*like, said) : amounts_of_formula(formula, said);
    if (said.flour_name) {
        const journal::Flour flour = named_flour(journal, *said.flour_name);
        swap_flour(bake.mixed, flour);
        if (!bake.title) bake.title = formula.name + " with " + flour.name;
    }
    for (const NamedMass& weighed : options.with)
        weigh_otherwise(bake.mixed, weighed);
    const auto figures = figures_of(journal::parts_of(bake.mixed));
    ask_about_hydration(figures ? std::optional(figures->hydration) : std::nullopt, options.sure);
    draw_on(bake.mixed, options.bags, journal);
    bake.loaves = loaves_of(options, bake.mixed, like ? &*like : nullptr);
    take_facts(bake, options, like ? &*like : nullptr, journal);
    return bake;
}

Outcome run(const BakeAddOptions& said, journal::Journal& journal, const Context& context) {
    const bool to_ask = says_too_little(said) && can_ask(context);
    const BakeAddOptions options = to_ask ? asked_for(said, journal, context) : said;
    const journal::BakeEntry added = journal.add_bake(bake_of(options, journal, context));
    context.out << "Added bake " << added.bake.id.value << ": " << to_text(added.bake.date) << " "
                << added.bake.title << ", hydration as mixed " << percent_text(added.hydration)
                << ".\n";
    if (to_ask)
        context.out << "What comes later: loafmark bake edit last; its slices: loafmark slice add "
                       "last PHOTO\n";
    warn_of_bags(added, journal, context);
    return Outcome::done;
}

}  // namespace loafmark::commands
