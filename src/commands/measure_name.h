#pragma once

#include <string>

#include "analysis/measures.h"

namespace loafmark::commands {

// The measure of a key, "loaf_height". Throws std::runtime_error with what is near, or for one that
// is not measured yet.
[[nodiscard]] Measure parse_measure(const std::string& text);

}  // namespace loafmark::commands
