// What the baker can do about a warning of the analysis. Here and not in the analysis, since
// remedies name options of the command line.
#pragma once

#include <string_view>

#include "analysis/reading.h"

namespace loafmark::commands {

// One sentence without a full stop.
[[nodiscard]] std::string_view remedy_for(WarningCode code);

// What to do about a photo in which no slice is seen.
inline constexpr const char* no_slice_remedy =
    "photograph the cut face from straight above on a plain ground that differs from the bread, "
    "the "
    "whole slice in the frame";

}  // namespace loafmark::commands
