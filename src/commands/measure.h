// loafmark measure PHOTO...: measures photos without a journal.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "analysis/measure.h"
#include "commands/context.h"
#include "commands/photos.h"

namespace CLI {
class App;
}

namespace loafmark::commands {

struct MeasureOptions {
    std::vector<std::string> photos;
    analysis::MeasureOptions analysis;
    bool json = false;
    std::optional<std::string> overlay_folder;
    std::optional<std::string> label_map_folder;
};

CLI::App& add_measure(CLI::App& parent, MeasureOptions& options);

// A photo that cannot be read, or without a slice, is said on stderr and makes the outcome
// incomplete; the others are measured all the same. Throws UsageError when two photos would write
// files of one name.
[[nodiscard]] Outcome run(const MeasureOptions& options, const Context& context);
[[nodiscard]] Outcome run(const MeasureOptions& options, const Context& context,
                          const MeasurePhoto& measure);

}  // namespace loafmark::commands
