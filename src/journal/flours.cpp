#include "journal/flours.h"

#include "arithmetic/near_names.h"
#include "journal/checks.h"
#include "journal/rows.h"

namespace loafmark::journal {
namespace {

constexpr const char* flour_columns =
    "id, name, grain, grade, mill, protein_fraction, protein_basis, protein_typical_of, "
    "moisture_fraction, ash_fraction, fibre_fraction, notes";

Flour flour_from(SQLite::Statement& statement) {
    Row row(statement);
    Flour flour;
    row.into(flour.id);
    row.into(flour.name);
    row.into(flour.grain);
    row.into(flour.grade);
    row.into(flour.mill);
    row.into(flour.protein);
    row.into(flour.protein_basis);
    row.into(flour.protein_typical_of);
    row.into(flour.moisture);
    row.into(flour.ash);
    row.into(flour.fibre);
    row.into(flour.notes);
    return flour;
}

void check(const auto& flour, const std::string& name) {
    check_fraction(flour.protein, "the protein content of '" + name + "'");
    check_fraction(flour.moisture, "the moisture of '" + name + "'");
    check_fraction(flour.ash, "the ash of '" + name + "'");
    check_fraction(flour.fibre, "the fibre of '" + name + "'");
}

void check_name_is_free(const Store& store, const std::string& name, std::optional<FlourId> own) {
    auto same = prepared(store.db,
                         "SELECT name, dropped_at FROM flour WHERE name_folded = ? AND id IS NOT ?",
                         folded(name), own);
    if (same.executeStep())
        throw Error("there is a flour '" + same.getColumn(0).getString() + "' already" +
                    (same.getColumn(1).isNull() ? "" : ", in the bin"));
}

}  // namespace

Flour add_flour(Store& store, const NewFlour& flour) {
    const std::string name = not_empty(flour.name, "the flour's name");
    check(flour, name);
    check_name_is_free(store, name, std::nullopt);
    const auto id = insert<FlourId>(
        store.db,
        "INSERT INTO flour (uid, name, name_folded, grain, grade, mill, protein_fraction, "
        "protein_basis, protein_typical_of, moisture_fraction, ash_fraction, fibre_fraction, "
        "notes, created_at) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        store.new_uid(), name, folded(name), flour.grain, flour.grade, flour.mill, flour.protein,
        flour.protein_basis, flour.protein_typical_of, flour.moisture, flour.ash, flour.fibre,
        flour.notes, store.now());
    return flour_of(store, id);
}

Flour change_flour(Store& store, FlourId id, const FlourChange& change) {
    const Flour before = flour_of(store, id);
    const std::string name = not_empty(change.name.value_or(before.name), "the flour's name");
    check(change, name);
    check_name_is_free(store, name, id);
    // A new protein content is on the basis that is given with it; the old one's says nothing.
    const bool own = change.protein.has_value();
    execute(store.db,
            "UPDATE flour SET name = ?, name_folded = ?, grain = ?, grade = ?, mill = ?, "
            "protein_fraction = ?, protein_basis = ?, protein_typical_of = ?, "
            "moisture_fraction = ?, ash_fraction = ?, fibre_fraction = ?, notes = ? WHERE id = ?",
            name, folded(name), first_of(change.grain, before.grain),
            first_of(change.grade, before.grade), first_of(change.mill, before.mill),
            first_of(change.protein, before.protein),
            own ? change.protein_basis : first_of(change.protein_basis, before.protein_basis),
            own ? change.protein_typical_of : before.protein_typical_of,
            first_of(change.moisture, before.moisture), first_of(change.ash, before.ash),
            first_of(change.fibre, before.fibre), first_of(change.notes, before.notes), id);
    return flour_of(store, id);
}

std::vector<Flour> all_flours(const Store& store) {
    auto statement =
        prepared(store.db, std::string("SELECT ") + flour_columns +
                               " FROM flour WHERE dropped_at IS NULL ORDER BY name_folded");
    std::vector<Flour> flours;
    while (statement.executeStep())
        flours.push_back(flour_from(statement));
    return flours;
}

Flour flour_of(const Store& store, FlourId id) {
    auto statement =
        prepared(store.db, std::string("SELECT ") + flour_columns + " FROM flour WHERE id = ?", id);
    if (!statement.executeStep())
        throw NotFound("there is no flour " + std::to_string(id.value), {});
    return flour_from(statement);
}

}  // namespace loafmark::journal
