// Filing the sample bakes. What the journal holds already is left alone, so that a demo that was
// broken off can be gone on with.
#pragma once

#include <filesystem>
#include <vector>

#include "commands/demo_plan.h"
#include "commands/filing.h"
#include "commands/photos.h"
#include "journal/journal.h"

namespace loafmark::commands {

// A photo that is still to be measured, and the loaf that it belongs to.
struct DemoPhoto {
    PhotoJob job;
    journal::LoafId loaf;
    SliceFacts facts;
};

// Adds what is missing of flours, formulas and bakes; returns the photos that are not filed yet.
[[nodiscard]] std::vector<DemoPhoto> file_demo_bakes(const DemoPlan& plan,
                                                     const std::filesystem::path& samples,
                                                     journal::Journal& journal);

// The plan's trial with its bakes, and its sittings; those that the journal holds are left alone.
void file_demo_trial(const DemoPlan& plan, journal::Journal& journal);

}  // namespace loafmark::commands
