// Which readings are too poor to count, by the warnings that came with them.
#pragma once

#include <algorithm>
#include <array>
#include <string_view>

#include "analysis/reading.h"
#include "journal/records.h"

namespace loafmark::journal {

inline constexpr std::array poor_warnings = {
    code_name(WarningCode::blurred), code_name(WarningCode::overexposed),
    code_name(WarningCode::underexposed), code_name(WarningCode::target_conflict)};

// Not sharp, burnt out, black, or its target at odds with itself.
[[nodiscard]] inline bool is_poor(const Reading& reading) {
    return std::ranges::any_of(reading.warnings, [](const std::string& code) {
        return std::ranges::find(poor_warnings, code) != poor_warnings.end();
    });
}

}  // namespace loafmark::journal
