#include "journal/bake_facts.h"
#include "journal/bakes.h"
#include "journal/checks.h"
#include "journal/rows.h"

namespace loafmark::journal {
namespace {

LoafId loaf_of(const Store& store, BakeId bake, int number) {
    auto loaf =
        prepared(store.db, "SELECT id FROM loaf WHERE bake = ? AND number = ?", bake, number);
    if (!loaf.executeStep())
        throw NotFound(
            "bake " + std::to_string(bake.value) + " has no loaf " + std::to_string(number), {});
    return Row(loaf).take<LoafId>();
}

void check_bake_exists(const Store& store, BakeId id) {
    auto bake = prepared(store.db, "SELECT 1 FROM bake WHERE id = ?", id);
    if (!bake.executeStep()) throw NotFound("there is no bake " + std::to_string(id.value), {});
}

// The room belongs to the bake day, which other bakes share.
void keep_room(Store& store, BakeId id, Celsius room) {
    auto day = prepared(store.db,
                        "SELECT date FROM bake_day WHERE id = (SELECT bake_day FROM bake "
                        "WHERE id = ?)",
                        id);
    if (day.executeStep()) (void)bake_day_of(store, Row(day).take<Date>(), room);
}

}  // namespace

void change_bake(Store& store, BakeId id, const BakeChange& change) {
    check_bake_exists(store, id);
    check_word(change.handling, handling_words, "the handling");
    check_facts(change.facts);
    if (change.title) (void)not_empty(*change.title, "the bake's title");
    execute(store.db,
            "UPDATE bake SET title = coalesce(?, title), "
            "dough_temperature_c = coalesce(?, dough_temperature_c), "
            "handling = coalesce(?, handling), notes = coalesce(?, notes) WHERE id = ?",
            change.title, change.dough_temperature, change.handling, change.notes, id);
    keep_facts(store, id, change.facts);
    if (change.room_temperature) keep_room(store, id, *change.room_temperature);
    if (change.mixed) {
        check_mixed(store, *change.mixed);
        keep_mixed(store, id, *change.mixed);
    }
}

void change_loaf(Store& store, BakeId bake, int number, const LoafChange& change) {
    check_bake_exists(store, bake);
    const LoafId loaf = loaf_of(store, bake, number);
    check_mass(change.dough_mass, "a loaf's dough mass");
    check_mass(change.baked_mass, "a loaf's baked mass");
    check_facts(change.facts);
    execute(store.db,
            "UPDATE loaf SET tin = coalesce(?, tin), free_form = coalesce(?, free_form), "
            "dough_mass_g = coalesce(?, dough_mass_g), baked_mass_g = coalesce(?, baked_mass_g) "
            "WHERE id = ?",
            change.tin, change.free_form, change.dough_mass, change.baked_mass, loaf);
    keep_facts(store, loaf, change.facts);
}

void add_step(Store& store, BakeId bake, const BakeStep& step) {
    check_bake_exists(store, bake);
    check_step(step);
    execute(store.db,
            "INSERT INTO bake_step (bake, position, step, began_local, lasted_min, temperature_c) "
            "VALUES (?, (SELECT coalesce(max(position), 0) + 1 FROM bake_step WHERE bake = ?), ?, "
            "?, ?, ?)",
            bake, bake, step.step, step.began, step.lasted, step.temperature);
}

}  // namespace loafmark::journal
