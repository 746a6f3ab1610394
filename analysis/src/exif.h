#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>

namespace loafmark::analysis {

struct ExifFacts {
    int orientation = 1;               // 1 to 8 as EXIF 2.3 defines them; 1 when absent or nonsense
    std::optional<std::string> taken;  // 2026-03-01T18:20:00
    std::optional<double> focal_length_35mm;  // in mm
};

// Reads an EXIF block (starting with "Exif\0\0" or with its TIFF header). A damaged block tells
// nothing, which is no error.
[[nodiscard]] ExifFacts read_exif(std::span<const std::uint8_t> block);

}  // namespace loafmark::analysis
