#include "insight/plain_numbers.h"

#include <array>
#include <charconv>

namespace loafmark::insight {

std::string fixed_text(double value, int decimals) {
    std::array<char, 400> text{};
    const auto end = std::to_chars(text.data(), text.data() + text.size(), value,
                                   std::chars_format::fixed, decimals)
                         .ptr;
    const std::string printed(text.data(), end);
    const bool zero = printed.find_first_of("123456789") == std::string::npos;
    return zero && printed.starts_with('-') ? printed.substr(1) : printed;
}

}  // namespace loafmark::insight
