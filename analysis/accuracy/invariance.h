// The same slice in a changed photo: no measure may move beyond its interval.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "analysis/measure.h"

namespace loafmark::accuracy {

// A photo, and the same slice turned, mirrored, tilted and so on.
struct VariantSet {
    std::filesystem::path photo;
    std::optional<Millimetres> thickness;
    struct Variant {
        std::string change;  // in words
        std::filesystem::path photo;
    };
    std::vector<Variant> variants;
};

// Throws std::runtime_error naming the file.
[[nodiscard]] VariantSet read_variants(const std::filesystem::path& json_file);

// Files of variants in a folder, by name; may be none.
[[nodiscard]] std::vector<std::filesystem::path> variant_files(const std::filesystem::path& folder);

struct VariantComparison {
    std::string photo;
    std::string change;
    std::size_t compared = 0;
    std::vector<std::string> moved;  // keys of the measures outside the first photo's interval
};

// Measures of the first photo that the changed one lacks have moved. Crumb measures are compared
// where both photos resolve the same cells. `first` must show one slice; if `changed` does not, all
// have moved.
[[nodiscard]] VariantComparison compare_variant(const VariantSet::Variant& variant,
                                                const PhotoReading& first,
                                                const PhotoReading& changed);

}  // namespace loafmark::accuracy
