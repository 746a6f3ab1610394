// One slice in changed photos: what must not change its measures.
#pragma once

#include <filesystem>
#include <string>

#include "analysis/picture.h"
#include "phantoms/recipes.h"

namespace loafmark::phantoms {

// The pixels that show `upright` once a viewer obeys that EXIF orientation, 1 to 8.
[[nodiscard]] Picture stored_as(const Picture& upright, int orientation);

// Half the pixels each way; blocks of four averaged.
[[nodiscard]] Picture halved(const Picture& picture);

// Writes STEM.jpg, its changes (turned three ways, stored in seven EXIF orientations, halved,
// mirrored, tilted) and STEM.variants.json, which names them. Throws std::runtime_error naming the
// file.
void write_variants(const ChangedViews& views, const std::string& stem,
                    const std::filesystem::path& folder, int threads);

}  // namespace loafmark::phantoms
