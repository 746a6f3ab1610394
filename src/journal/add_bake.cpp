#include <algorithm>
#include <cmath>

#include "journal/amounts.h"
#include "journal/bakes.h"
#include "journal/checks.h"
#include "journal/formulas.h"
#include "journal/rows.h"

namespace loafmark::journal {
namespace {

void check_bag(const Store& store, const MixedAmount& amount) {
    if (!amount.bag) return;
    const std::string number = std::to_string(amount.bag->value);
    auto bag = prepared(store.db, "SELECT flour FROM bag WHERE id = ?", amount.bag);
    if (!bag.executeStep()) throw NotFound("there is no bag " + number, {});
    if (Row(bag).take<FlourId>() != amount.flour)
        throw Error("bag " + number + " holds another flour than '" + amount.name + "'");
}

void check(const Store& store, const NewBake& bake) {
    check_date(bake.date, "the bake's date");
    check_mass(bake.dough_mass, "the dough's mass");
    for (const MixedAmount& amount : bake.mixed) {
        const std::string name = not_empty(amount.name, "a mixed ingredient's name");
        check_mass(amount.mass, "the mass of '" + name + "'");
        check_parts(amount.water_fraction, amount.flour_fraction, "'" + name + "'");
        check_flour(store, amount.kind, name, amount.flour);
        check_bag(store, amount);
    }
    for (const NewLoaf& loaf : bake.loaves) {
        check_mass(loaf.dough_mass, "a loaf's dough mass");
        check_mass(loaf.baked_mass, "a loaf's baked mass");
    }
    if (bake.handling && std::ranges::find(handling_words, *bake.handling) == handling_words.end())
        throw Error("the handling '" + *bake.handling +
                    "' is none of stiff, firm, supple, tacky, " + "slack, pours");
    if (bake.set_aside) (void)not_empty(*bake.set_aside, "the reason for setting aside");
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

bool differ(Celsius a, Celsius b) {
    return std::abs(a.degrees() - b.degrees()) > 1e-9;
}

// The bake day of that date with that room, made or completed where need be.
BakeDayId bake_day_of(Store& store, Date date, std::optional<Celsius> room) {
    auto days = prepared(
        store.db, "SELECT id, room_temperature_c FROM bake_day WHERE date = ? ORDER BY id", date);
    if (days.executeStep()) {
        Row row(days);
        const auto id = row.take<BakeDayId>();
        const auto known = row.take<std::optional<Celsius>>();
        if (room && known && differ(*room, *known))
            throw Error("the bake day of " + to_text(date) + " has a room temperature of " +
                        to_text(*known) + " already, not " + to_text(*room));
        if (room && !known)
            execute(store.db, "UPDATE bake_day SET room_temperature_c = ? WHERE id = ?", room, id);
        return id;
    }
    return insert<BakeDayId>(
        store.db,
        "INSERT INTO bake_day (uid, kitchen, date, room_temperature_c, created_at) "
        "VALUES (?, (SELECT min(id) FROM kitchen), ?, ?, ?)",
        store.new_uid(), date, room, store.now());
}

void add_mixed(Store& store, BakeId bake, const std::vector<MixedAmount>& mixed) {
    int position = 0;
    for (const MixedAmount& amount : mixed)
        execute(store.db,
                "INSERT INTO mixed_amount (bake, position, kind, name, flour, bag, mass_g, "
                "water_fraction, flour_fraction) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
                bake, ++position, amount.kind, trimmed(amount.name), amount.flour, amount.bag,
                amount.mass, amount.water_fraction, amount.flour_fraction);
}

void add_loaves(Store& store, BakeId bake, std::vector<NewLoaf> loaves) {
    if (loaves.empty()) loaves.emplace_back();
    int number = 0;
    for (const NewLoaf& loaf : loaves)
        execute(store.db,
                "INSERT INTO loaf (uid, bake, number, tin, free_form, dough_mass_g, baked_mass_g, "
                "created_at) VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
                store.new_uid(), bake, ++number, loaf.tin, loaf.free_form, loaf.dough_mass,
                loaf.baked_mass, store.now());
}

}  // namespace

BakeId add_bake(Store& store, const NewBake& bake) {
    check(store, bake);
    const FormulaVersion formula = formula_version(store, bake.formula_version);
    const std::string given_title(trimmed(bake.title.value_or("")));
    const auto mixed = mixed_of(bake, formula);
    const auto id = insert<BakeId>(
        store.db,
        "INSERT INTO bake (uid, bake_day, formula_version, title, dough_temperature_c, handling, "
        "notes, set_aside, created_at) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
        store.new_uid(), bake_day_of(store, bake.date, bake.room_temperature), formula.id,
        given_title.empty() ? formula.name : given_title, bake.dough_temperature, bake.handling,
        bake.notes, bake.set_aside, store.now());
    add_mixed(store, id, mixed);
    add_loaves(store, id, bake.loaves);
    return id;
}

}  // namespace loafmark::journal
