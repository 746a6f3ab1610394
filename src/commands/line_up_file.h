// A line-up as a file: slices of bakes side by side, for a film, a class or a wall.
#pragma once

#include <string>
#include <vector>

#include "commands/context.h"
#include "journal/journal.h"

namespace loafmark::commands {

// The name as given; throws std::runtime_error where it ends in neither .png nor .svg.
[[nodiscard]] std::string parse_line_up_file(const std::string& text);

struct LineUpBake {
    journal::BakeEntry bake;
    std::string name;  // as it stands under the slice
};

// One slice a bake, in the order given: its first with a picture and a scale, an end of the loaf
// only where there is nothing else. Bakes without one are left out, and stderr says why. Throws
// Failure where none is left or the file cannot be written.
void write_line_up(const std::string& file, const std::string& title,
                   const std::vector<LineUpBake>& bakes, const journal::Journal& journal,
                   const Context& context);

}  // namespace loafmark::commands
