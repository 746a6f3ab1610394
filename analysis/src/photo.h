// A photo as read from its file: pixels upright, and what its EXIF tells.
#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include <opencv2/core.hpp>

namespace loafmark::analysis {

struct Photo {
    std::string name;                  // file name without its folder
    cv::Mat rgb;                       // CV_8UC3, R G B, as a person sees it: EXIF turned once
    std::optional<std::string> taken;  // local time of exposure, 2026-03-01T18:20:00
    std::optional<double> focal_length_35mm;  // EXIF's equivalent on 35 mm film, in mm
};

// Refused before decoding: more than this is no phone's photo but a mistake or an attack, and would
// take gigabytes. Today's largest phone sensors give 50 megapixels in their everyday modes.
inline constexpr double most_megapixels = 64;

// Reads JPEG, PNG or HEIC by what the file holds, whatever its name says. Throws Error (naming the
// file, what is wrong and what to do) for a missing or empty file, another format, a truncated or
// damaged picture, and one of more than `most_megapixels`.
[[nodiscard]] Photo load_photo(const std::filesystem::path& file);

}  // namespace loafmark::analysis
