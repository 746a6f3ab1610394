#include "journal/amounts.h"
#include "journal/bags.h"
#include "journal/bake_facts.h"
#include "journal/bakes.h"
#include "journal/checks.h"
#include "journal/formulas.h"
#include "journal/rows.h"

namespace loafmark::journal {
namespace {

void check(const Store& store, const NewBake& bake) {
    check_date(bake.date, "the bake's date");
    check_mass(bake.dough_mass, "the dough's mass");
    check_mixed(store, bake.mixed);
    for (const NewLoaf& loaf : bake.loaves) {
        check_mass(loaf.dough_mass, "a loaf's dough mass");
        check_mass(loaf.baked_mass, "a loaf's baked mass");
        check_facts(loaf.facts);
    }
    check_word(bake.handling, handling_words, "the handling");
    if (bake.set_aside) (void)not_empty(*bake.set_aside, "the reason for setting aside");
    check_facts(bake.facts);
    for (const BakeStep& step : bake.steps)
        check_step(step);
}

// All dough of the bake, as given or as the sum of its loaves.
std::optional<Grams> dough_of(const NewBake& bake) {
    if (bake.dough_mass || bake.loaves.empty()) return bake.dough_mass;
    Grams sum(0);
    for (const NewLoaf& loaf : bake.loaves) {
        if (!loaf.dough_mass) return std::nullopt;
        sum = sum + *loaf.dough_mass;
    }
    return sum;
}

std::vector<MixedAmount> mixed_of(const NewBake& bake, const FormulaVersion& formula) {
    if (!bake.mixed.empty()) return bake.mixed;
    const auto dough = dough_of(bake);
    if (!dough || !(*dough > Grams(0)))
        throw Error("neither the dough's mass nor what was mixed is given");
    return amounts_for_dough(formula.ingredients, *dough);
}

void add_loaves(Store& store, BakeId bake, std::vector<NewLoaf> loaves) {
    if (loaves.empty()) loaves.emplace_back();
    int number = 0;
    for (const NewLoaf& loaf : loaves) {
        const auto id = insert<LoafId>(
            store.db,
            "INSERT INTO loaf (uid, bake, number, tin, free_form, dough_mass_g, baked_mass_g, "
            "created_at) VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
            store.new_uid(), bake, ++number, loaf.tin, loaf.free_form, loaf.dough_mass,
            loaf.baked_mass, store.now());
        keep_facts(store, id, loaf.facts);
    }
}

}  // namespace

BakeId add_bake(Store& store, const NewBake& bake) {
    check(store, bake);
    const FormulaVersion formula = formula_version(store, bake.formula_version);
    const std::string given_title(trimmed(bake.title.value_or("")));
    const auto mixed = drawn_on_bags(store, mixed_of(bake, formula), bake.date);
    const auto id = insert<BakeId>(
        store.db,
        "INSERT INTO bake (uid, bake_day, formula_version, title, dough_temperature_c, handling, "
        "notes, set_aside, created_at) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
        store.new_uid(), bake_day_of(store, bake.date, bake.room_temperature), formula.id,
        given_title.empty() ? formula.name : given_title, bake.dough_temperature, bake.handling,
        bake.notes, bake.set_aside, store.now());
    keep_mixed(store, id, mixed);
    keep_facts(store, id, bake.facts);
    for (const BakeStep& step : bake.steps)
        add_step(store, id, step);
    add_loaves(store, id, bake.loaves);
    return id;
}

}  // namespace loafmark::journal
