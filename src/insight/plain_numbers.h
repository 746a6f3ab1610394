// Numbers as people read them, whatever the locale.
#pragma once

#include <concepts>
#include <string>

namespace loafmark::insight {

// With that many decimals; "-0.0" is printed "0.0".
[[nodiscard]] std::string fixed_text(double value, int decimals);

// "1 bake", "2 bakes".
[[nodiscard]] std::string counted(std::integral auto count, const std::string& one,
                                  const std::string& many) {
    return std::to_string(count) + " " + (count == 1 ? one : many);
}

}  // namespace loafmark::insight
