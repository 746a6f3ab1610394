#include "journal/flours.h"

#include "arithmetic/near_names.h"
#include "journal/checks.h"
#include "journal/rows.h"

namespace loafmark::journal {
namespace {

constexpr const char* flour_columns =
    "id, name, grain, grade, mill, protein_fraction, "
    "protein_basis, notes";
constexpr const char* bag_columns =
    "id, flour, lot, bought_on, best_before, opened_on, "
    "bought_mass_g, left_mass_g, protein_fraction, protein_basis";

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
    row.into(flour.notes);
    return flour;
}

Bag bag_from(SQLite::Statement& statement) {
    Row row(statement);
    Bag bag;
    row.into(bag.id);
    row.into(bag.flour);
    row.into(bag.lot);
    row.into(bag.bought);
    row.into(bag.best_before);
    row.into(bag.opened);
    row.into(bag.bought_mass);
    row.into(bag.left);
    row.into(bag.protein);
    row.into(bag.protein_basis);
    return bag;
}

void check(const NewBag& bag) {
    check_date(bag.bought, "the day it was bought,");
    check_date(bag.best_before, "the best-before date");
    check_date(bag.opened, "the day it was opened,");
    check_mass(bag.bought_mass, "the mass bought");
    check_mass(bag.left, "the mass left");
    check_fraction(bag.protein, "the protein content");
}

}  // namespace

Flour add_flour(Store& store, const NewFlour& flour) {
    const std::string name = not_empty(flour.name, "the flour's name");
    check_fraction(flour.protein, "the protein content of '" + name + "'");
    auto same = prepared(store.db, "SELECT name FROM flour WHERE name_folded = ?", folded(name));
    if (same.executeStep())
        throw Error("there is a flour '" + same.getColumn(0).getString() + "' already");
    const auto id = insert<FlourId>(
        store.db,
        "INSERT INTO flour (uid, name, name_folded, grain, grade, mill, protein_fraction, "
        "protein_basis, notes, created_at) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        store.new_uid(), name, folded(name), flour.grain, flour.grade, flour.mill, flour.protein,
        flour.protein_basis, flour.notes, store.now());
    return flour_of(store, id);
}

std::vector<Flour> all_flours(const Store& store) {
    auto statement = prepared(
        store.db, std::string("SELECT ") + flour_columns + " FROM flour ORDER BY name_folded");
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

Bag add_bag(Store& store, const NewBag& bag) {
    check(bag);
    (void)flour_of(store, bag.flour);  // throws where there is none
    const auto left = bag.left ? bag.left : bag.bought_mass;
    const auto id = insert<BagId>(
        store.db,
        "INSERT INTO bag (uid, flour, lot, bought_on, best_before, opened_on, bought_mass_g, "
        "left_mass_g, protein_fraction, protein_basis, created_at) "
        "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        store.new_uid(), bag.flour, bag.lot, bag.bought, bag.best_before, bag.opened,
        bag.bought_mass, left, bag.protein, bag.protein_basis, store.now());
    auto statement =
        prepared(store.db, std::string("SELECT ") + bag_columns + " FROM bag WHERE id = ?", id);
    statement.executeStep();
    return bag_from(statement);
}

std::vector<Bag> bags_of(const Store& store, FlourId flour) {
    (void)flour_of(store, flour);
    auto statement = prepared(
        store.db, std::string("SELECT ") + bag_columns + " FROM bag WHERE flour = ? ORDER BY id",
        flour);
    std::vector<Bag> bags;
    while (statement.executeStep())
        bags.push_back(bag_from(statement));
    return bags;
}

}  // namespace loafmark::journal
