// The files that `measure` writes beside its results, STEM-n.overlay.jpg and the maps of a slice.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "analysis/measure.h"
#include "documents/photo_document.h"

namespace loafmark::commands {

// Throws UsageError when two photos have one stem, since their files would overwrite each other.
void refuse_equal_stems(const std::vector<std::string>& photos);

// Writes STEM-n.overlay.jpg for each slice n, and returns their names.
std::vector<std::string> write_overlays(const std::filesystem::path& folder,
                                        const std::filesystem::path& photo,
                                        const std::vector<Picture>& overlays);

// Writes STEM-n.cells.png (16 bit), STEM-n.slice.png, STEM-n.crumb.png and STEM-n.frame.json for
// each slice n.
std::vector<documents::LabelMapNames> write_label_maps(
    const std::filesystem::path& folder, const std::filesystem::path& photo,
    const std::vector<analysis::SliceMaps>& maps);

}  // namespace loafmark::commands
