#include "photo_bytes.h"

#include <algorithm>
#include <array>
#include <span>
#include <stdexcept>
#include <string_view>

#include <opencv2/core.hpp>

#include "analysis/measure.h"
#include "pictures.h"

namespace loafmark::analysis::made {
namespace {

// Byte by byte: GCC 12 sees overflows in vector's own insertion where there are none.
void append(ByteString& to, std::span<const std::uint8_t> bytes) {
    for (const std::uint8_t byte : bytes)
        to.push_back(byte);
}

void append(ByteString& to, std::string_view text) {
    for (const char c : text)
        to.push_back(static_cast<std::uint8_t>(c));
}

void append_16(ByteString& to, std::size_t value) {
    to.push_back(static_cast<std::uint8_t>(value >> 8));
    to.push_back(static_cast<std::uint8_t>(value));
}

void append_32(ByteString& to, std::size_t value) {
    append_16(to, value >> 16 & 0xFFFF);
    append_16(to, value & 0xFFFF);
}

struct Entry {
    std::size_t tag, type, count, value;  // types: 2 text, 3 short, 4 long
};

// One directory of tags; `next` is where the next one lies, 0 for none.
ByteString directory(const std::vector<Entry>& entries, std::size_t next) {
    ByteString bytes;
    append_16(bytes, entries.size());
    for (const Entry& entry : entries) {
        append_16(bytes, entry.tag);
        append_16(bytes, entry.type);
        append_32(bytes, entry.count);
        if (entry.type == 3) {
            append_16(bytes, entry.value);
            append_16(bytes, 0);
        } else {
            append_32(bytes, entry.value);
        }
    }
    append_32(bytes, next);
    return bytes;
}

std::size_t directory_size(std::size_t entries) {
    return 2 + 12 * entries + 4;
}

std::uint32_t png_checksum(const ByteString& bytes) {  // PNG third edition, annex D
    std::uint32_t crc = 0xFFFFFFFF;
    for (const std::uint8_t byte : bytes) {
        crc ^= byte;
        for (int bit = 0; bit < 8; ++bit)
            crc = crc & 1 ? 0xEDB88320 ^ crc >> 1 : crc >> 1;
    }
    return ~crc;
}

// Place of the segment whose second byte is `marker`.
std::size_t segment(const ByteString& jpeg, std::uint8_t marker) {
    std::size_t at = 2;
    while (at + 4 <= jpeg.size()) {
        if (jpeg[at + 1] == marker) return at;
        at += 2 + (static_cast<std::size_t>(jpeg[at + 2]) << 8 | jpeg[at + 3]);
    }
    throw std::logic_error("no such segment");
}

}  // namespace

ByteString exif_block(const ExifPlan& plan) {
    const std::size_t first = 8;
    const std::size_t first_count = plan.orientation ? 2 : 1;
    const std::size_t second = first + directory_size(first_count);
    const std::size_t second_count =
        (plan.taken.empty() ? 0 : 1) + (plan.focal_length_35mm ? 1 : 0);
    const std::size_t text = second + directory_size(second_count);
    const std::size_t text_size = plan.taken.empty() ? 0 : plan.taken.size() + 1;
    const std::size_t third = plan.thumbnail.empty() ? 0 : text + text_size;

    std::vector<Entry> main, details;
    if (plan.orientation)
        main.push_back({0x0112, 3, 1, static_cast<std::size_t>(*plan.orientation)});
    main.push_back({0x8769, 4, 1, second});
    if (!plan.taken.empty()) details.push_back({0x9003, 2, text_size, text});
    if (plan.focal_length_35mm)
        details.push_back({0xA405, 3, 1, static_cast<std::size_t>(*plan.focal_length_35mm)});

    ByteString block;
    append(block, std::string_view("Exif\0\0MM\0*", 10));
    append_32(block, first);
    append(block, directory(main, third));
    append(block, directory(details, 0));
    append(block, plan.taken);
    if (text_size > 0) block.push_back(0);
    if (third > 0) {
        append(block, directory({{0x0103, 3, 1, 6},
                                 {0x0201, 4, 1, third + directory_size(3)},
                                 {0x0202, 4, 1, plan.thumbnail.size()}},
                                0));
        append(block, plan.thumbnail);
    }
    return block;
}

ByteString with_exif(const ByteString& jpeg, const ByteString& block) {
    ByteString result;
    append(result, std::span(jpeg).first(2));
    append(result, "\xFF\xE1");
    append_16(result, block.size() + 2);
    append(result, block);
    append(result, std::span(jpeg).subspan(2));
    return result;
}

ByteString png_chunk(const std::string& type, const ByteString& data) {
    ByteString checked;
    append(checked, type);
    append(checked, data);
    ByteString chunk;
    append_32(chunk, data.size());
    append(chunk, checked);
    append_32(chunk, png_checksum(checked));
    return chunk;
}

ByteString with_chunk(const ByteString& png, const ByteString& chunk) {
    constexpr std::size_t header = 8 + 25;
    ByteString result;
    append(result, std::span(png).first(header));
    append(result, chunk);
    append(result, std::span(png).subspan(header));
    return result;
}

ByteString png_header(std::uint32_t width, std::uint32_t height) {
    ByteString size;
    append_32(size, width);
    append_32(size, height);
    append(size, std::string_view("\x08\x02\0\0\0", 5));
    ByteString png;
    append(png, "\x89PNG\r\n\x1A\n");
    append(png, png_chunk("IHDR", size));
    append(png, png_chunk("IDAT", {0x78, 0x9C}));
    return png;
}

ByteString with_size(ByteString jpeg, int width, int height) {
    const std::size_t at = segment(jpeg, 0xC0);
    ByteString size;
    append_16(size, static_cast<std::size_t>(height));
    append_16(size, static_cast<std::size_t>(width));
    std::copy(size.begin(), size.end(), jpeg.begin() + static_cast<std::ptrdiff_t>(at) + 5);
    return jpeg;
}

std::size_t scan_start(const ByteString& jpeg) {
    const std::size_t at = segment(jpeg, 0xDA);
    return at + 2 + (static_cast<std::size_t>(jpeg[at + 2]) << 8 | jpeg[at + 3]);
}

ByteString jpeg_of(const cv::Mat& rgb, int quality) {
    return encode_jpeg(picture_of(rgb), quality);
}

ByteString png_of(const cv::Mat& rgb) {
    return encode_png(picture_of(rgb));
}

cv::Mat quarters() {
    cv::Mat picture(32, 48, CV_8UC3, cv::Scalar(255, 255, 255));
    picture(cv::Rect(0, 0, 24, 16)).setTo(cv::Scalar(255, 0, 0));
    picture(cv::Rect(24, 0, 24, 16)).setTo(cv::Scalar(0, 255, 0));
    picture(cv::Rect(0, 16, 24, 16)).setTo(cv::Scalar(0, 0, 255));
    return picture;
}

std::string quarters_seen(const cv::Mat& rgb) {
    std::string seen;
    for (const int row : {rgb.rows / 4, 3 * rgb.rows / 4})
        for (const int column : {rgb.cols / 4, 3 * rgb.cols / 4}) {
            const auto& v = rgb.at<cv::Vec3b>(row, column);
            const bool r = v[0] > 128, g = v[1] > 128, b = v[2] > 128;
            seen += r && g && b ? 'W' : r ? 'R' : g ? 'G' : b ? 'B' : '?';
        }
    return seen;
}

cv::Mat stored_as(const cv::Mat& upright, int orientation) {
    // EXIF 2.3, tag 0x0112: which side of the picture the stored first row and first column are.
    const int w = upright.cols, h = upright.rows;
    const bool aside = orientation >= 5;
    cv::Mat stored(aside ? w : h, aside ? h : w, CV_8UC3);
    for (int row = 0; row < stored.rows; ++row)
        for (int column = 0; column < stored.cols; ++column) {
            const std::array<cv::Point, 8> from = {{
                {column, row},                  // 1: row 0 top, column 0 left
                {w - 1 - column, row},          // 2: top, right
                {w - 1 - column, h - 1 - row},  // 3: bottom, right
                {column, h - 1 - row},          // 4: bottom, left
                {row, column},                  // 5: row 0 left, column 0 top
                {w - 1 - row, column},          // 6: right, top
                {w - 1 - row, h - 1 - column},  // 7: right, bottom
                {row, h - 1 - column},          // 8: left, bottom
            }};
            stored.at<cv::Vec3b>(row, column) =
                upright.at<cv::Vec3b>(from[static_cast<std::size_t>(orientation - 1)]);
        }
    return stored;
}

}  // namespace loafmark::analysis::made
