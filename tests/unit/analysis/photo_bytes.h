// Photo files made byte by byte, so that tests say themselves what a file holds.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include <opencv2/core.hpp>

namespace loafmark::analysis::made {

using ByteString = std::vector<std::uint8_t>;

struct ExifPlan {
    std::optional<int> orientation;
    std::string taken;                     // "2026:03:01 18:20:00"; empty: none
    std::optional<int> focal_length_35mm;  // in mm
    ByteString thumbnail;                  // a JPEG; empty: none
};

// An EXIF block, "Exif\0\0" and a big-endian TIFF (EXIF 2.3, 4.5 and 4.6).
[[nodiscard]] ByteString exif_block(const ExifPlan& plan);

// `jpeg` with the block in an APP1 segment right after its start.
[[nodiscard]] ByteString with_exif(const ByteString& jpeg, const ByteString& block);

// One PNG chunk with its checksum.
[[nodiscard]] ByteString png_chunk(const std::string& type, const ByteString& data);

// `png` with `chunk` between its header and the rest.
[[nodiscard]] ByteString with_chunk(const ByteString& png, const ByteString& chunk);

// The start of a PNG of that size, without a pixel in it.
[[nodiscard]] ByteString png_header(std::uint32_t width, std::uint32_t height);

// `jpeg` with another size written into its frame header (SOF0).
[[nodiscard]] ByteString with_size(ByteString jpeg, int width, int height);

// Where the coded pixels of `jpeg` start: behind its scan header.
[[nodiscard]] std::size_t scan_start(const ByteString& jpeg);

// JPEG and PNG bytes of CV_8UC3 pixels.
[[nodiscard]] ByteString jpeg_of(const cv::Mat& rgb, int quality = 92);
[[nodiscard]] ByteString png_of(const cv::Mat& rgb);

// A picture that no turn or mirror maps to itself: 48 x 32, its quarters red (top left), green (top
// right), blue (bottom left) and white.
[[nodiscard]] cv::Mat quarters();

// Where each quarter's colour is found: one letter a quarter, "RGBW" for quarters() itself.
[[nodiscard]] std::string quarters_seen(const cv::Mat& rgb);

// `upright` as a camera with that EXIF orientation would have stored it.
[[nodiscard]] cv::Mat stored_as(const cv::Mat& upright, int orientation);

}  // namespace loafmark::analysis::made
