// Small pictures of the photos that came out worst, with what was found drawn in.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "compare.h"

namespace loafmark::accuracy {

// The places of the `count` worst photos: those with misses first, then by outline IoU.
[[nodiscard]] std::vector<std::size_t> worst_photos(const std::vector<PhotoComparison>& photos,
                                                    std::size_t count);

// Of photos whose crumb is judged: those whose cells were found worst (cell F1), worst first.
[[nodiscard]] std::vector<std::size_t> worst_crumbs(const std::vector<PhotoComparison>& photos,
                                                    std::size_t count);

// Measures the photo again and writes STEM-errors.jpg for its first slice (error_map.h). Nothing
// where it has no crumb to judge.
std::vector<std::string> write_error_map(const Truth& truth, const std::filesystem::path& folder);

// The picture at whole fractions of its size, no side longer than `longest`; blocks are averaged.
[[nodiscard]] Picture shrunk(const Picture& picture, int longest);

// Measures the photo again for its overlay and writes STEM.jpg, of several slices STEM-1.jpg and so
// on, each under 120 kB. Returns the names; none where no slice was found. Throws
// std::runtime_error where the folder takes no file.
std::vector<std::string> write_overlays(const Truth& truth, const std::filesystem::path& folder);

}  // namespace loafmark::accuracy
