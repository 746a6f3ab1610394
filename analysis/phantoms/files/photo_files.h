// Writes phantoms to disk: JPEG with EXIF, 16-bit PNG, JSON. All throw std::runtime_error naming
// the file when it cannot be written.
#pragma once

#include <filesystem>

#include "phantoms/phantom.h"

namespace loafmark::phantoms {

void write_photo(const Phantom& phantom, const std::filesystem::path& file);
void write_label_map(const LabelMap& map, const std::filesystem::path& file);
// photo_name and map_name: as the document names them.
void write_truth(const Phantom& phantom, const std::string& photo_name, const std::string& map_name,
                 const std::filesystem::path& file);

// All three: STEM.jpg, STEM.cells.png and STEM.truth.json in the folder; the stem is the recipe's
// name.
void write_phantom(const Phantom& phantom, const std::filesystem::path& folder);

}  // namespace loafmark::phantoms
