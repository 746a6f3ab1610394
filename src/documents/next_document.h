#pragma once

#include <string>

#include "insight/next_bake.h"

namespace loafmark::documents {

// `next --json`, indented, with a line's end.
[[nodiscard]] std::string next_document(const insight::NextBake& next, const insight::Goal& goal,
                                        const std::string& flour);

// For people at a terminal.
[[nodiscard]] std::string next_text(const insight::NextBake& next, const std::string& flour);

}  // namespace loafmark::documents
