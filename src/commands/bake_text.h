// Bakes as people read them.
#pragma once

#include <string>
#include <vector>

#include "commands/text.h"
#include "journal/records.h"

namespace loafmark::commands {

// One bake: what was mixed, its loaves and slices.
[[nodiscard]] std::string bake_text(const journal::BakeEntry& bake, Degrees degrees);

// A line a bake: number, date, title, flours, hydration, slices.
[[nodiscard]] std::string bakes_table(const std::vector<journal::BakeEntry>& bakes);

// A line a slice, with height, openness and coarseness; a bake without slices has one line too.
[[nodiscard]] std::string found_table(const std::vector<journal::BakeEntry>& bakes);

}  // namespace loafmark::commands
