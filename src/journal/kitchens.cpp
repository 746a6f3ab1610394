#include "journal/kitchens.h"

#include "arithmetic/near_names.h"
#include "journal/checks.h"
#include "journal/rows.h"

namespace loafmark::journal {
namespace {

// The one kitchen that a journal has so far.
constexpr const char* this_kitchen = "(SELECT min(id) FROM kitchen)";

template <class Number>
void check_above_zero(const std::optional<Number>& number, const std::string& what) {
    if (number && !(*number > Number(0))) throw Error(what + " is not more than nothing");
}

std::vector<Tin> all_tins(const Store& store) {
    auto statement = prepared(store.db, std::string("SELECT id, name, volume_ml FROM tin "
                                                    "WHERE kitchen = ") +
                                            this_kitchen + " ORDER BY name_folded");
    std::vector<Tin> tins;
    while (statement.executeStep()) {
        Row row(statement);
        Tin& tin = tins.emplace_back();
        row.into(tin.id);
        row.into(tin.name);
        row.into(tin.volume);
    }
    return tins;
}

std::vector<std::string> all_tasters(const Store& store) {
    auto statement = prepared(store.db, std::string("SELECT name FROM taster WHERE kitchen = ") +
                                            this_kitchen + " ORDER BY name_folded");
    std::vector<std::string> names;
    while (statement.executeStep())
        names.push_back(Row(statement).take<std::string>());
    return names;
}

void change_facts(Store& store, const KitchenFacts& change) {
    check_above_zero(change.scale_step, "the scales' step");
    check_above_zero(change.slice_thickness, "the usual slice thickness");
    check_word(change.leaven, leaven_words, "the usual leaven");
    check_word(change.temperatures, temperature_words, "the scale of temperatures");
    execute(store.db,
            std::string("UPDATE kitchen SET scale_step_g = coalesce(?, scale_step_g), "
                        "slice_thickness_mm = coalesce(?, slice_thickness_mm), "
                        "cut_after_h = coalesce(?, cut_after_h), leaven = coalesce(?, leaven), "
                        "temperatures = coalesce(?, temperatures) WHERE id = ") +
                this_kitchen,
            change.scale_step, change.slice_thickness, change.cut_after, change.leaven,
            change.temperatures);
}

void keep_tin(Store& store, const NewTin& tin) {
    const std::string name = not_empty(tin.name, "the tin's name");
    check_above_zero(tin.volume, "the volume of the tin '" + name + "'");
    execute(store.db,
            std::string("INSERT INTO tin (uid, kitchen, name, name_folded, volume_ml, created_at) "
                        "VALUES (?, ") +
                this_kitchen +
                ", ?, ?, ?, ?) ON CONFLICT (kitchen, name_folded) DO UPDATE SET volume_ml = "
                "coalesce(excluded.volume_ml, volume_ml)",
            store.new_uid(), name, folded(name), tin.volume, store.now());
}

void keep_taster(Store& store, std::string_view given_name) {
    const std::string name = not_empty(given_name, "the taster's name");
    execute(store.db,
            std::string("INSERT INTO taster (uid, kitchen, name, name_folded, "
                        "created_at) VALUES (?, ") +
                this_kitchen + ", ?, ?, ?) ON CONFLICT (kitchen, name_folded) DO NOTHING",
            store.new_uid(), name, folded(name), store.now());
}

// `table`: tin or taster.
void forget(Store& store, const std::string& table, const std::string& name) {
    const std::string from = table + " WHERE name_folded = ?";
    if (prepared(store.db, "DELETE FROM " + from, folded(name)).exec() > 0) return;
    std::vector<std::string> known;
    auto names = prepared(store.db, "SELECT name FROM " + table);
    while (names.executeStep())
        known.push_back(Row(names).take<std::string>());
    throw NotFound("there is no " + table + " '" + name + "'", near_names(name, known));
}

}  // namespace

Kitchen the_kitchen(const Store& store) {
    auto statement = prepared(store.db,
                              "SELECT name, scale_step_g, slice_thickness_mm, cut_after_h, leaven, "
                              "temperatures FROM kitchen ORDER BY id LIMIT 1");
    Kitchen kitchen;
    if (!statement.executeStep()) return kitchen;
    Row row(statement);
    row.into(kitchen.name);
    row.into(kitchen.facts.scale_step);
    row.into(kitchen.facts.slice_thickness);
    row.into(kitchen.facts.cut_after);
    row.into(kitchen.facts.leaven);
    row.into(kitchen.facts.temperatures);
    kitchen.tins = all_tins(store);
    kitchen.tasters = all_tasters(store);
    return kitchen;
}

Kitchen change_kitchen(Store& store, const KitchenChange& change) {
    change_facts(store, change.facts);
    for (const NewTin& tin : change.tins)
        keep_tin(store, tin);
    for (const std::string& name : change.tasters)
        keep_taster(store, name);
    for (const std::string& name : change.forgotten_tins)
        forget(store, "tin", name);
    for (const std::string& name : change.forgotten_tasters)
        forget(store, "taster", name);
    return the_kitchen(store);
}

}  // namespace loafmark::journal
