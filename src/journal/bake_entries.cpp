#include <algorithm>
#include <map>

#include "journal/amounts.h"
#include "journal/bakes.h"
#include "journal/id_list.h"
#include "journal/rows.h"
#include "journal/slices.h"
#include "journal/weighed.h"

namespace loafmark::journal {
namespace {

// Entries in their order, found by the number of their bake.
class Entries {
  public:
    explicit Entries(std::vector<BakeEntry> entries) : entries_(std::move(entries)) {
        for (std::size_t i = 0; i < entries_.size(); ++i)
            place_[entries_[i].bake.id] = i;
    }
    [[nodiscard]] BakeEntry& at(BakeId id) { return entries_[place_.at(id)]; }
    [[nodiscard]] std::vector<BakeEntry>& all() { return entries_; }

  private:
    std::vector<BakeEntry> entries_;
    std::map<BakeId, std::size_t> place_;
};

void take_facts(Row& row, BakeFacts& facts) {
    row.into(facts.leaven);
    row.into(facts.leaven_fed_before);
    row.into(facts.mixed_by);
    row.into(facts.folds);
    row.into(facts.handling_shaped);
    row.into(facts.held_shape);
    row.into(facts.flour_temperature);
    row.into(facts.water_temperature);
    row.into(facts.starter_temperature);
}

void take_facts(Row& row, LoafFacts& facts) {
    row.into(facts.dough_height);
    row.into(facts.proof_height);
    row.into(facts.dent);
    row.into(facts.scoring);
    row.into(facts.oven_place);
    row.into(facts.steam);
    row.into(facts.core_temperature);
    row.into(facts.weighed_after);
    row.into(facts.volume);
    row.into(facts.length);
    row.into(facts.proof);
    row.into(facts.proof_temperature);
}

Entries bake_rows(const Store& store, const std::string& ids) {
    auto statement = prepared(
        store.db,
        "SELECT bake.id, bake_day, bake_day.date, title, bake.formula_version, "
        "room_temperature_c, dough_temperature_c, handling, bake.notes, set_aside, formula.name, "
        "formula_version.version, leaven, leaven_fed_before_h, mixed_by, folds, handling_shaped, "
        "held_shape, flour_temperature_c, water_temperature_c, starter_temperature_c FROM bake "
        "JOIN bake_day ON bake_day.id = bake.bake_day "
        "JOIN formula_version ON formula_version.id = bake.formula_version "
        "JOIN formula ON formula.id = formula_version.formula "
        "WHERE bake.id IN (SELECT value FROM json_each(?))",
        ids);
    std::vector<BakeEntry> entries;
    while (statement.executeStep()) {
        Row row(statement);
        BakeEntry& entry = entries.emplace_back();
        row.into(entry.bake.id);
        row.into(entry.bake.day);
        row.into(entry.bake.date);
        row.into(entry.bake.title);
        row.into(entry.bake.formula_version);
        row.into(entry.bake.room_temperature);
        row.into(entry.bake.dough_temperature);
        row.into(entry.bake.handling);
        row.into(entry.bake.notes);
        row.into(entry.bake.set_aside);
        row.into(entry.formula_name);
        row.into(entry.formula_version);
        take_facts(row, entry.bake.facts);
    }
    return Entries(std::move(entries));
}

// Adds flour of this mass to the entry's flours; masses, until as_shares() divides.
void add_flour(BakeEntry& entry, const FlourShare& flour) {
    const auto same = std::ranges::find(entry.flours, flour.flour, &FlourShare::flour);
    if (same == entry.flours.end())
        entry.flours.push_back(flour);
    else
        same->share = same->share + flour.share;
}

// A bag's own protein content goes before its flour's.
void add_mixed(const Store& store, Entries& entries, const std::string& ids) {
    auto statement = prepared(
        store.db,
        "SELECT bake, kind, mixed_amount.name, mixed_amount.flour, bag, mass_g, water_fraction, "
        "flour_fraction, flour.name, flour.grain, "
        "coalesce(bag.protein_fraction, flour.protein_fraction) FROM mixed_amount "
        "LEFT JOIN flour ON flour.id = mixed_amount.flour "
        "LEFT JOIN bag ON bag.id = mixed_amount.bag "
        "WHERE bake IN (SELECT value FROM json_each(?)) ORDER BY bake, position",
        ids);
    while (statement.executeStep()) {
        Row row(statement);
        BakeEntry& entry = entries.at(row.take<BakeId>());
        MixedAmount& amount = entry.bake.mixed.emplace_back();
        row.into(amount.kind);
        row.into(amount.name);
        row.into(amount.flour);
        row.into(amount.bag);
        row.into(amount.mass);
        row.into(amount.water_fraction);
        row.into(amount.flour_fraction);
        const double flour_mass = amount.mass.count() * amount.flour_fraction.count();
        if (!amount.flour || !(flour_mass > 0)) continue;
        FlourShare flour;
        flour.flour = *amount.flour;
        flour.share = Fraction(flour_mass);
        row.into(flour.name);
        row.into(flour.grain);
        row.into(flour.protein);
        add_flour(entry, flour);
    }
}

// From masses of flour to shares of all flour, that of unknown kind in a starter included.
void as_shares(BakeEntry& entry) {
    const auto figures = figures_of(parts_of(entry.bake.mixed));
    if (!figures) return;
    entry.hydration = figures->hydration;
    double all_flour = 0;
    for (const MixedAmount& amount : entry.bake.mixed)
        all_flour += amount.mass.count() * amount.flour_fraction.count();
    for (FlourShare& flour : entry.flours)
        flour.share = flour.share / all_flour;
    std::ranges::stable_sort(entry.flours, std::ranges::greater(), &FlourShare::share);
}

void add_loaves(const Store& store, Entries& entries, const std::string& ids) {
    auto statement =
        prepared(store.db,
                 "SELECT bake, id, number, tin, free_form, dough_mass_g, baked_mass_g, "
                 "dough_height_in_tin_mm, proof_height_mm, dent, scoring, "
                 "oven_place, steam, core_temperature_c, weighed_after_h, volume_ml, length_mm, "
                 "proof_min, proof_temperature_c "
                 "FROM loaf WHERE bake IN (SELECT value FROM json_each(?)) "
                 "ORDER BY bake, number",
                 ids);
    while (statement.executeStep()) {
        Row row(statement);
        const auto bake = row.take<BakeId>();
        Loaf& loaf = entries.at(bake).loaves.emplace_back().loaf;
        loaf.bake = bake;
        row.into(loaf.id);
        row.into(loaf.number);
        row.into(loaf.tin);
        row.into(loaf.free_form);
        row.into(loaf.dough_mass);
        row.into(loaf.baked_mass);
        take_facts(row, loaf.facts);
    }
}

void add_steps(const Store& store, Entries& entries, const std::string& ids) {
    auto statement = prepared(store.db,
                              "SELECT bake, step, began_local, lasted_min, temperature_c "
                              "FROM bake_step WHERE bake IN (SELECT value FROM json_each(?)) "
                              "ORDER BY bake, position",
                              ids);
    while (statement.executeStep()) {
        Row row(statement);
        BakeStep& step = entries.at(row.take<BakeId>()).bake.steps.emplace_back();
        row.into(step.step);
        row.into(step.began);
        row.into(step.lasted);
        row.into(step.temperature);
    }
}

void add_slices(const Store& store, Entries& entries, const std::string& ids) {
    std::map<LoafId, LoafEntry*> loaves;
    for (BakeEntry& entry : entries.all())
        for (LoafEntry& loaf : entry.loaves)
            loaves[loaf.loaf.id] = &loaf;
    auto statement = prepared(store.db,
                              "SELECT slice.id FROM slice JOIN loaf ON loaf.id = slice.loaf "
                              "WHERE slice.dropped_at IS NULL "
                              "AND loaf.bake IN (SELECT value FROM json_each(?))",
                              ids);
    std::vector<SliceId> slices;
    while (statement.executeStep())
        slices.push_back(Row(statement).take<SliceId>());
    for (SliceEntry& slice : slice_entries(store, slices))
        loaves.at(slice.slice.loaf)->slices.push_back(std::move(slice));
}

// What the kitchens tell of loaves and bakes: what tins hold, what scales show.
void weigh_all(const Store& store, Entries& entries, const std::string& ids) {
    std::map<LoafId, Millilitres> tins;
    auto tin = prepared(store.db,
                        "SELECT loaf.id, tin.volume_ml FROM loaf JOIN bake ON bake.id = loaf.bake "
                        "JOIN bake_day ON bake_day.id = bake.bake_day "
                        "JOIN tin ON tin.kitchen = bake_day.kitchen "
                        "AND tin.name_folded = folded(loaf.tin) WHERE tin.volume_ml IS NOT NULL "
                        "AND loaf.bake IN (SELECT value FROM json_each(?))",
                        ids);
    while (tin.executeStep()) {
        Row row(tin);
        const auto loaf = row.take<LoafId>();
        tins.emplace(loaf, row.take<Millilitres>());
    }
    auto scales = prepared(store.db,
                           "SELECT bake.id, kitchen.scale_step_g FROM bake "
                           "JOIN bake_day ON bake_day.id = bake.bake_day "
                           "JOIN kitchen ON kitchen.id = bake_day.kitchen "
                           "WHERE bake.id IN (SELECT value FROM json_each(?))",
                           ids);
    while (scales.executeStep()) {
        Row row(scales);
        const auto bake = row.take<BakeId>();
        const auto step = row.take<std::optional<Grams>>();
        for (LoafEntry& loaf : entries.at(bake).loaves) {
            Weighing with;
            if (step) with.scale_step = *step;
            if (const auto found = tins.find(loaf.loaf.id); found != tins.end())
                with.tin_volume = found->second;
            weigh(loaf, with);
        }
    }
}

std::vector<BakeEntry> in_order_of(const std::vector<BakeId>& ids, std::vector<BakeEntry> entries) {
    std::map<BakeId, std::size_t> place;
    for (const BakeId id : ids)
        place.emplace(id, place.size());
    std::ranges::sort(entries, {}, [&](const BakeEntry& entry) { return place.at(entry.bake.id); });
    return entries;
}

}  // namespace

std::vector<BakeEntry> bake_entries(const Store& store, const std::vector<BakeId>& ids) {
    const std::string list = id_list(ids);
    Entries entries = bake_rows(store, list);
    add_mixed(store, entries, list);
    for (BakeEntry& entry : entries.all())
        as_shares(entry);
    add_steps(store, entries, list);
    add_loaves(store, entries, list);
    add_slices(store, entries, list);
    weigh_all(store, entries, list);
    return in_order_of(ids, std::move(entries.all()));
}

BakeEntry bake_entry(const Store& store, BakeId id) {
    auto entries = bake_entries(store, {id});
    if (entries.empty()) throw NotFound("there is no bake " + std::to_string(id.value), {});
    return std::move(entries.front());
}

}  // namespace loafmark::journal
