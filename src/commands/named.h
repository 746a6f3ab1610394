// Things of the journal by the name that was typed, with a remedy where there is none or several.
#pragma once

#include <string>

#include "arithmetic/dates.h"
#include "journal/journal.h"

namespace loafmark::commands {

// Each throws Failure: what is near or fits, else the command that lists all.
[[nodiscard]] journal::Flour named_flour(const journal::Journal& journal, const std::string& name);
[[nodiscard]] journal::FormulaVersion named_formula(const journal::Journal& journal,
                                                    const std::string& name);
[[nodiscard]] journal::Trial named_trial(const journal::Journal& journal, const std::string& name);
// BAKE: last, last-2, a date, a number, part of its title.
[[nodiscard]] journal::BakeEntry named_bake(const journal::Journal& journal,
                                            const std::string& text, Date today);

}  // namespace loafmark::commands
