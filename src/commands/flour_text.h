// Flours as people read them, and as JSON.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "journal/records.h"

namespace loafmark::commands {

// All that is known of a flour, its bags, and what must be said of its grain.
[[nodiscard]] std::string flour_text(const journal::Flour& flour,
                                     const std::vector<journal::Bag>& bags, Date today);
[[nodiscard]] std::string flours_table(const std::vector<journal::Flour>& flours);
[[nodiscard]] std::string flours_document(const std::vector<journal::Flour>& flours);

// On one basis, so that flours can be compared; nothing where content or basis is unknown.
[[nodiscard]] std::optional<Fraction> comparable_protein(const journal::Flour& flour);

}  // namespace loafmark::commands
