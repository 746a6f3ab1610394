// Numbers as people read them, whatever the locale.
#pragma once

#include <string>

namespace loafmark::insight {

// With that many decimals; "-0.0" is printed "0.0".
[[nodiscard]] std::string fixed_text(double value, int decimals);

}  // namespace loafmark::insight
