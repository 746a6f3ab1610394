// Writes phantoms to disk: JPEG with EXIF, 16-bit PNG, JSON. All throw std::runtime_error naming
// the file when it cannot be written.
#pragma once

#include <filesystem>

#include "phantoms/phantom.h"

namespace loafmark::phantoms {

// `orientation`: EXIF's, of a picture stored that way.
void write_photo(const Picture& picture, const PhantomRecipe& recipe, int orientation,
                 const std::filesystem::path& file);
void write_label_map(const LabelMap& map, const std::filesystem::path& file);
void write_truth(const Phantom& phantom, const std::filesystem::path& file);

// All: STEM.jpg, STEM.truth.json, STEM.cells.png and STEM.specks.png (of several slices
// STEM.1.cells.png and so on) in the folder; the stem is the recipe's name.
void write_phantom(const Phantom& phantom, const std::filesystem::path& folder);

}  // namespace loafmark::phantoms
