#include "journal/formulas.h"

#include <cmath>

#include "arithmetic/near_names.h"
#include "journal/checks.h"
#include "journal/flours.h"
#include "journal/rows.h"

namespace loafmark::journal {
namespace {

void check(const Store& store, const NewFormulaVersion& version) {
    double flour = 0;
    for (const Ingredient& line : version.ingredients) {
        const std::string name = not_empty(line.name, "an ingredient's name");
        (void)not_empty(line.stage, "the stage of '" + name + "'");
        if (!(line.share >= Fraction(0)))
            throw Error("the share of '" + name + "' is " + to_text(line.share) + ", below zero");
        check_parts(line.water_fraction, line.flour_fraction, "'" + name + "'");
        check_flour(store, line.kind, name, line.flour);
        flour += line.share.count() * line.flour_fraction.count();
    }
    if (!(flour > 0)) throw Error("the formula has no flour");
    if (std::abs(flour - 1) > 1e-6)
        throw Error("the formula's flour, that in a starter included, makes " +
                    to_text(Fraction(flour)) + " instead of 100%");
}

FormulaVersionId insert_version(Store& store, FormulaId formula, int number,
                                const NewFormulaVersion& version) {
    const auto id = insert<FormulaVersionId>(
        store.db,
        "INSERT INTO formula_version (uid, formula, version, notes, created_at) "
        "VALUES (?, ?, ?, ?, ?)",
        store.new_uid(), formula, number, version.notes, store.now());
    int position = 0;
    for (const Ingredient& line : version.ingredients)
        execute(store.db,
                "INSERT INTO ingredient (formula_version, position, kind, name, flour, "
                "share_of_flour, water_fraction, flour_fraction, stage) "
                "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
                id, ++position, line.kind, trimmed(line.name), line.flour, line.share,
                line.water_fraction, line.flour_fraction, trimmed(line.stage));
    return id;
}

std::vector<Ingredient> ingredients_of(const Store& store, FormulaVersionId id) {
    auto statement = prepared(store.db,
                              "SELECT kind, name, flour, share_of_flour, water_fraction, "
                              "flour_fraction, stage FROM ingredient "
                              "WHERE formula_version = ? ORDER BY position",
                              id);
    std::vector<Ingredient> ingredients;
    while (statement.executeStep()) {
        Row row(statement);
        Ingredient& line = ingredients.emplace_back();
        row.into(line.kind);
        row.into(line.name);
        row.into(line.flour);
        row.into(line.share);
        row.into(line.water_fraction);
        row.into(line.flour_fraction);
        row.into(line.stage);
    }
    return ingredients;
}

// `rest`: what comes after the SELECT's joins, with one parameter at most.
template <class... Values>
std::vector<FormulaVersion> versions(const Store& store, const std::string& rest,
                                     const Values&... values) {
    auto statement = prepared(
        store.db,
        "SELECT formula_version.id, formula.id, formula.name, version, formula_version.notes "
        "FROM formula_version JOIN formula ON formula.id = formula_version.formula " +
            rest,
        values...);
    std::vector<FormulaVersion> result;
    while (statement.executeStep()) {
        Row row(statement);
        FormulaVersion& version = result.emplace_back();
        row.into(version.id);
        row.into(version.formula);
        row.into(version.name);
        row.into(version.version);
        row.into(version.notes);
        version.ingredients = ingredients_of(store, version.id);
    }
    return result;
}

}  // namespace

void check_flour(const Store& store, IngredientKind kind, const std::string& name,
                 std::optional<FlourId> flour) {
    if (kind == IngredientKind::flour && !flour)
        throw Error("'" + name + "' is a flour but stands for none of the journal's flours");
    if (flour) (void)flour_of(store, *flour);
}

FormulaVersion add_formula(Store& store, std::string_view given_name,
                           const NewFormulaVersion& version) {
    const std::string name = not_empty(given_name, "the formula's name");
    check(store, version);
    auto same = prepared(store.db, "SELECT name, dropped_at FROM formula WHERE name_folded = ?",
                         folded(name));
    if (same.executeStep())
        throw Error("there is a formula '" + same.getColumn(0).getString() + "' already" +
                    (same.getColumn(1).isNull() ? "" : ", in the bin"));
    const auto formula = insert<FormulaId>(
        store.db, "INSERT INTO formula (uid, name, name_folded, created_at) VALUES (?, ?, ?, ?)",
        store.new_uid(), name, folded(name), store.now());
    return formula_version(store, insert_version(store, formula, 1, version));
}

FormulaVersion add_formula_version(Store& store, FormulaId formula,
                                   const NewFormulaVersion& version) {
    const int number = versions_of(store, formula).back().version + 1;
    check(store, version);
    return formula_version(store, insert_version(store, formula, number, version));
}

std::vector<FormulaVersion> newest_versions(const Store& store) {
    return versions(store,
                    "WHERE version = (SELECT max(version) FROM formula_version AS other "
                    "WHERE other.formula = formula.id) AND formula.dropped_at IS NULL "
                    "ORDER BY formula.name_folded");
}

std::vector<FormulaVersion> versions_of(const Store& store, FormulaId formula) {
    auto result = versions(store, "WHERE formula.id = ? ORDER BY version", formula);
    if (result.empty()) throw NotFound("there is no formula " + std::to_string(formula.value), {});
    return result;
}

FormulaVersion formula_version(const Store& store, FormulaVersionId id) {
    auto found = versions(store, "WHERE formula_version.id = ?", id);
    if (found.empty())
        throw NotFound("there is no formula version " + std::to_string(id.value), {});
    return found.front();
}

}  // namespace loafmark::journal
