#include "commands/measure_name.h"

#include <stdexcept>
#include <vector>

#include "arithmetic/near_names.h"
#include "commands/messages.h"

namespace loafmark::commands {

Measure parse_measure(const std::string& text) {
    if (const auto measure = measure_of_key(text)) {
        if (info_of(*measure).state == MeasureState::built) return *measure;
        throw std::runtime_error("'" + text + "' is not measured yet; try openness");
    }
    std::vector<std::string> keys;
    for (const MeasureInfo& info : measure_catalogue)
        if (info.state == MeasureState::built) keys.emplace_back(info.key);
    const std::string near = did_you_mean(near_names(text, keys));
    throw std::runtime_error(
        "'" + text + "' is no measure; " +
        (near.empty() ? "write one such as openness, loaf_height or coarseness" : near));
}

}  // namespace loafmark::commands
