#include "journal/bake_facts.h"

#include <cmath>

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

bool differ(Celsius a, Celsius b) {
    return std::abs(a.degrees() - b.degrees()) > 1e-9;
}

template <class Number>
void check_above_zero(const std::optional<Number>& number, const std::string& what) {
    if (number && !(*number > Number(0))) throw Error(what + " is not more than nothing");
}

}  // namespace

void check_mixed(const Store& store, const std::vector<MixedAmount>& mixed) {
    for (const MixedAmount& amount : mixed) {
        const std::string name = not_empty(amount.name, "a mixed ingredient's name");
        check_mass(amount.mass, "the mass of '" + name + "'");
        check_parts(amount.water_fraction, amount.flour_fraction, "'" + name + "'");
        check_flour(store, amount.kind, name, amount.flour);
        check_bag(store, amount);
    }
}

void check_facts(const BakeFacts& facts) {
    check_word(facts.leaven, leaven_words, "the leaven");
    check_word(facts.mixed_by, mixing_words, "what it was mixed by");
    check_word(facts.handling_shaped, handling_words, "the handling at shaping");
    check_word(facts.held_shape, held_shape_words, "whether it held its shape");
    if (facts.folds && *facts.folds < 0) throw Error("the folds are fewer than none");
}

void check_facts(const LoafFacts& facts) {
    check_above_zero(facts.dough_height, "the dough's height in the tin");
    check_above_zero(facts.proof_height, "the proof height");
    check_word(facts.dent, dent_words, "what a finger's dent does");
    check_above_zero(facts.volume, "the loaf's volume");
    check_above_zero(facts.length, "the loaf's length");
    check_above_zero(facts.proof, "the proof");
    if (facts.core_temperature && facts.core_temperature->degrees() > 100)
        throw Error("the core temperature of " + to_text(*facts.core_temperature) +
                    " cannot be: a core never passes 100C");
}

void check_step(const BakeStep& step) {
    check_word(step.step, step_words, "a step");
}

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

void keep_mixed(Store& store, BakeId bake, const std::vector<MixedAmount>& mixed) {
    execute(store.db, "DELETE FROM mixed_amount WHERE bake = ?", bake);
    int position = 0;
    for (const MixedAmount& amount : mixed)
        execute(store.db,
                "INSERT INTO mixed_amount (bake, position, kind, name, flour, bag, mass_g, "
                "water_fraction, flour_fraction) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
                bake, ++position, amount.kind, trimmed(amount.name), amount.flour, amount.bag,
                amount.mass, amount.water_fraction, amount.flour_fraction);
}

void keep_facts(Store& store, BakeId bake, const BakeFacts& facts) {
    execute(store.db,
            "UPDATE bake SET leaven = coalesce(?, leaven), "
            "leaven_fed_before_h = coalesce(?, leaven_fed_before_h), "
            "mixed_by = coalesce(?, mixed_by), folds = coalesce(?, folds), "
            "handling_shaped = coalesce(?, handling_shaped), held_shape = coalesce(?, held_shape), "
            "flour_temperature_c = coalesce(?, flour_temperature_c), "
            "water_temperature_c = coalesce(?, water_temperature_c), "
            "starter_temperature_c = coalesce(?, starter_temperature_c) WHERE id = ?",
            facts.leaven, facts.leaven_fed_before, facts.mixed_by, facts.folds,
            facts.handling_shaped, facts.held_shape, facts.flour_temperature,
            facts.water_temperature, facts.starter_temperature, bake);
}

void keep_facts(Store& store, LoafId loaf, const LoafFacts& facts) {
    execute(store.db,
            "UPDATE loaf SET dough_height_in_tin_mm = coalesce(?, dough_height_in_tin_mm), "
            "proof_height_mm = coalesce(?, proof_height_mm), dent = coalesce(?, dent), "
            "scoring = coalesce(?, scoring), oven_place = coalesce(?, oven_place), "
            "steam = coalesce(?, steam), "
            "core_temperature_c = coalesce(?, core_temperature_c), "
            "weighed_after_h = coalesce(?, weighed_after_h), "
            "volume_ml = coalesce(?, volume_ml), length_mm = coalesce(?, length_mm), proof_min = "
            "coalesce(?, proof_min), "
            "proof_temperature_c = coalesce(?, proof_temperature_c) WHERE id = ?",
            facts.dough_height, facts.proof_height, facts.dent, facts.scoring, facts.oven_place,
            facts.steam, facts.core_temperature, facts.weighed_after, facts.volume, facts.length,
            facts.proof, facts.proof_temperature, loaf);
}

}  // namespace loafmark::journal
