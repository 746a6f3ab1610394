// Tastings as people read them, and as JSON.
#pragma once

#include <map>
#include <string>

#include "insight/tasting.h"

namespace loafmark::commands {

// What groups of bakes are called, by the number of their first.
using BakeNames = std::map<journal::BakeId, std::string>;

[[nodiscard]] std::string tastings_text(const insight::TasteSummary& summary,
                                        const BakeNames& names);
[[nodiscard]] std::string tastings_document(const insight::TasteSummary& summary);

}  // namespace loafmark::commands
