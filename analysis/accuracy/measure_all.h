// Whole folders measured and compared, several photos at a time.
#pragma once

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "compare.h"
#include "invariance.h"

namespace loafmark::accuracy {

// Told of each photo when it is done; never by two threads at once.
using Progress = std::function<void(const std::string& photo)>;

// Photos in the order of their truth files. A photo that the analysis refuses is a miss, with the
// refusal as its reason.
[[nodiscard]] std::vector<PhotoComparison> compare_folder(const std::filesystem::path& folder,
                                                          int threads, const Progress& progress);

// All variants in the folder, by file.
[[nodiscard]] std::vector<VariantComparison> compare_variants(const std::filesystem::path& folder,
                                                              int threads,
                                                              const Progress& progress);

}  // namespace loafmark::accuracy
