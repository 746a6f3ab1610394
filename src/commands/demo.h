// loafmark demo DIR: a journal made from the sample images, and its report.
#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "commands/context.h"
#include "commands/photos.h"

namespace CLI {
class App;
}

namespace loafmark::commands {

struct DemoOptions {
    std::string folder;
    std::optional<std::string> samples;
};

CLI::App& add_demo(CLI::App& parent, DemoOptions& options);

// `folder` is new or empty, or holds a demo that was broken off, which is then gone on with; else
// Failure names it and nothing is touched.
[[nodiscard]] Outcome run(const DemoOptions&, const Context&);
[[nodiscard]] Outcome run(const DemoOptions&, const Context&, const MeasurePhoto& measure);

// The folder with bakes.json: `option`, else beside the program or in its share folder, else that
// of the source tree. Throws Failure that lists where it was looked for.
[[nodiscard]] std::filesystem::path samples_folder(const std::optional<std::string>& option,
                                                   const std::filesystem::path& program);

}  // namespace loafmark::commands
