// Formulas and their versions in the database. What each does is said in journal.h.
#pragma once

#include "journal/store.h"

namespace loafmark::journal {

FormulaVersion add_formula(Store& store, std::string_view name, const NewFormulaVersion& version);
FormulaVersion add_formula_version(Store& store, FormulaId formula,
                                   const NewFormulaVersion& version);
// The newest of each formula, by name.
[[nodiscard]] std::vector<FormulaVersion> newest_versions(const Store& store);
[[nodiscard]] std::vector<FormulaVersion> versions_of(const Store& store, FormulaId formula);
[[nodiscard]] FormulaVersion formula_version(const Store& store, FormulaVersionId id);

// Throws Error where a line names a flour that the journal lacks, or a flour line names none.
void check_flour(const Store& store, IngredientKind kind, const std::string& name,
                 std::optional<FlourId> flour);

}  // namespace loafmark::journal
