#include "journal/bags.h"

#include <algorithm>
#include <tuple>

#include "journal/checks.h"
#include "journal/flours.h"
#include "journal/rows.h"

namespace loafmark::journal {
namespace {

// What is left follows from the stock and from what was mixed, so that nothing need be kept in
// step. A bake in the bin never was; one that is set aside used its flour all the same.
constexpr const char* bag_query =
    "SELECT id, flour, lot, bought_on, best_before, opened_on, bought_mass_g, "
    "stock_mass_g - (SELECT total(m.mass_g * m.flour_fraction) FROM mixed_amount AS m "
    "JOIN bake ON bake.id = m.bake WHERE m.bag = bag.id AND bake.dropped_at IS NULL), "
    "protein_fraction, protein_basis, milled_on, price, notes FROM bag ";

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
    row.into(bag.milled);
    row.into(bag.price);
    row.into(bag.notes);
    return bag;
}

void check(const BagFacts& bag) {
    check_date(bag.bought, "the day it was bought,");
    check_date(bag.best_before, "the best-before date");
    check_date(bag.opened, "the day it was opened,");
    check_date(bag.milled, "the day it was milled,");
    check_mass(bag.bought_mass, "the mass bought");
    check_mass(bag.left, "the mass left");
    check_fraction(bag.protein, "the protein content");
}

Grams drawn(const Store& store, BagId id) {
    auto sum = prepared(store.db,
                        "SELECT total(m.mass_g * m.flour_fraction) FROM mixed_amount AS m "
                        "JOIN bake ON bake.id = m.bake WHERE m.bag = ? AND bake.dropped_at IS NULL",
                        id);
    sum.executeStep();
    return Row(sum).take<Grams>();
}

// What scales do not show is nothing.
constexpr Grams as_good_as_empty{0.5};

// Open ones before closed ones, then the oldest by the day it was opened or bought.
auto order_of_use(const Bag& bag) {
    return std::tuple(!bag.opened.has_value(), bag.opened ? bag.opened : bag.bought, bag.id);
}

std::optional<Bag> bag_in_use(const Store& store, FlourId flour) {
    std::vector<Bag> bags = bags_of(store, flour);
    std::erase_if(bags, [](const Bag& bag) { return bag.left && *bag.left < as_good_as_empty; });
    const auto first = std::ranges::min_element(
        bags, [](const Bag& a, const Bag& b) { return order_of_use(a) < order_of_use(b); });
    return first == bags.end() ? std::nullopt : std::optional(*first);
}

}  // namespace

Bag add_bag(Store& store, const NewBag& bag) {
    check(bag);
    (void)flour_of(store, bag.flour);  // throws where there is none
    const auto id = insert<BagId>(
        store.db,
        "INSERT INTO bag (uid, flour, lot, bought_on, best_before, opened_on, bought_mass_g, "
        "stock_mass_g, protein_fraction, protein_basis, milled_on, price, notes, created_at) "
        "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        store.new_uid(), bag.flour, bag.lot, bag.bought, bag.best_before, bag.opened,
        bag.bought_mass, first_of(bag.left, bag.bought_mass), bag.protein, bag.protein_basis,
        bag.milled, bag.price, bag.notes, store.now());
    return bag_of(store, id);
}

Bag change_bag(Store& store, BagId id, const BagFacts& change) {
    check(change);
    const Bag before = bag_of(store, id);
    execute(
        store.db,
        "UPDATE bag SET lot = ?, bought_on = ?, best_before = ?, opened_on = ?, "
        "bought_mass_g = ?, protein_fraction = ?, protein_basis = ?, milled_on = ?, "
        "price = ?, notes = ? WHERE id = ?",
        first_of(change.lot, before.lot), first_of(change.bought, before.bought),
        first_of(change.best_before, before.best_before), first_of(change.opened, before.opened),
        first_of(change.bought_mass, before.bought_mass), first_of(change.protein, before.protein),
        change.protein ? change.protein_basis
                       : first_of(change.protein_basis, before.protein_basis),
        first_of(change.milled, before.milled), first_of(change.price, before.price),
        first_of(change.notes, before.notes), id);
    // A bag of which nothing was known holds, when its mass is learnt, that less what was drawn.
    std::optional<Grams> stock;
    if (change.left)
        stock = *change.left + drawn(store, id);
    else if (change.bought_mass && !before.left)
        stock = change.bought_mass;
    if (stock) execute(store.db, "UPDATE bag SET stock_mass_g = ? WHERE id = ?", stock, id);
    return bag_of(store, id);
}

Bag bag_of(const Store& store, BagId id) {
    auto statement = prepared(store.db, std::string(bag_query) + "WHERE id = ?", id);
    if (!statement.executeStep()) throw NotFound("there is no bag " + std::to_string(id.value), {});
    return bag_from(statement);
}

std::vector<Bag> bags_of(const Store& store, FlourId flour) {
    (void)flour_of(store, flour);
    auto statement = prepared(
        store.db, std::string(bag_query) + "WHERE flour = ? AND dropped_at IS NULL ORDER BY id",
        flour);
    std::vector<Bag> bags;
    while (statement.executeStep())
        bags.push_back(bag_from(statement));
    return bags;
}

std::vector<MixedAmount> drawn_on_bags(Store& store, std::vector<MixedAmount> mixed, Date day) {
    for (MixedAmount& amount : mixed) {
        // A starter is fed from the same bags: its flour counts, its water does not.
        if (amount.flour && !amount.bag && amount.flour_fraction > Fraction(0))
            if (const auto bag = bag_in_use(store, *amount.flour)) amount.bag = bag->id;
        if (amount.bag)
            execute(store.db, "UPDATE bag SET opened_on = ? WHERE id = ? AND opened_on IS NULL",
                    day, amount.bag);
    }
    return mixed;
}

}  // namespace loafmark::journal
