// One decoder a format. Each takes the whole file and gives upright-or-as-stored RGB pixels; sizes
// are checked before any pixel is decoded.
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include <opencv2/core.hpp>

namespace loafmark::analysis {

// What a decoder could not do; load_photo() adds the file's name.
struct DecodeFailure {
    std::string what;
    std::string remedy;
};

struct DecodedPicture {
    cv::Mat rgb;                     // CV_8UC3
    std::vector<std::uint8_t> exif;  // the EXIF block, from "Exif\0\0" or the TIFF header; or empty
    bool already_upright = false;    // the decoder applied the file's own rotation
};

using Bytes = std::span<const std::uint8_t>;

// All throw DecodeFailure. A JPEG's sides can be divided by 2, 4 or 8 on the way, rounded up.
[[nodiscard]] DecodedPicture decode_jpeg(Bytes file, unsigned shrink = 1);
[[nodiscard]] DecodedPicture decode_png(Bytes file);
[[nodiscard]] DecodedPicture decode_heif(Bytes file);

// Throws DecodeFailure when width x height is zero or beyond most_megapixels.
void check_size(std::uint64_t width, std::uint64_t height);

}  // namespace loafmark::analysis
