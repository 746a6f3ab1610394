// What was noted of a dough, its steps and its loaves, as people read it.
#pragma once

#include <string>
#include <vector>

#include "commands/text.h"
#include "journal/records.h"

namespace loafmark::commands {

// Rows of name and value, of what is known.
[[nodiscard]] std::vector<std::vector<std::string>> dough_facts(const journal::BakeFacts& facts,
                                                                Degrees degrees);

// A table and an empty line; "" without steps.
[[nodiscard]] std::string steps_text(const journal::Bake& bake, Degrees degrees);

// A line a loaf with what was weighed and noted: bake loss, specific volume, proof rise, oven
// spring and so on, as docs/measurement.md defines them; "" where nothing is known.
[[nodiscard]] std::string loaf_facts_text(const journal::BakeEntry& bake, Degrees degrees);

}  // namespace loafmark::commands
