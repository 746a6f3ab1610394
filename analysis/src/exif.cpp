#include "exif.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <memory>
#include <vector>

#include <libexif/exif-data.h>

namespace loafmark::analysis {
namespace {

constexpr std::array<std::uint8_t, 6> exif_header = {'E', 'x', 'i', 'f', 0, 0};

std::optional<int> short_value(const ExifData& data, ExifTag tag) {
    for (const ExifIfd ifd : {EXIF_IFD_0, EXIF_IFD_EXIF}) {
        const ExifEntry* entry = exif_content_get_entry(data.ifd[ifd], tag);
        if (!entry || entry->components < 1) continue;
        const ExifByteOrder order = exif_data_get_byte_order(const_cast<ExifData*>(&data));
        if (entry->format == EXIF_FORMAT_SHORT && entry->size >= 2)
            return exif_get_short(entry->data, order);
        if (entry->format == EXIF_FORMAT_LONG && entry->size >= 4)
            return static_cast<int>(exif_get_long(entry->data, order));
    }
    return std::nullopt;
}

// "2026:03:01 18:20:00" becomes "2026-03-01T18:20:00"; anything else is no time.
std::optional<std::string> iso_time(std::string text) {
    constexpr std::string_view shape = "dddd:dd:dd dd:dd:dd";
    if (text.size() < shape.size()) return std::nullopt;
    text.resize(shape.size());
    for (std::size_t i = 0; i < shape.size(); ++i) {
        const bool digit = std::isdigit(static_cast<unsigned char>(text[i])) != 0;
        if (shape[i] == 'd' ? !digit : text[i] != shape[i]) return std::nullopt;
    }
    if (text.starts_with("0000")) return std::nullopt;
    text[4] = text[7] = '-';
    text[10] = 'T';
    return text;
}

std::optional<std::string> time_taken(const ExifData& data) {
    const ExifEntry* entry =
        exif_content_get_entry(data.ifd[EXIF_IFD_EXIF], EXIF_TAG_DATE_TIME_ORIGINAL);
    if (!entry || entry->format != EXIF_FORMAT_ASCII) return std::nullopt;
    return iso_time(std::string(reinterpret_cast<const char*>(entry->data), entry->size));
}

}  // namespace

ExifFacts read_exif(std::span<const std::uint8_t> block) {
    ExifFacts facts;
    if (block.size() < 8) return facts;
    std::vector<std::uint8_t> bytes;
    if (!std::equal(exif_header.begin(), exif_header.end(), block.begin()))
        bytes.assign(exif_header.begin(), exif_header.end());
    bytes.insert(bytes.end(), block.begin(), block.end());

    const std::unique_ptr<ExifData, decltype(&exif_data_unref)> data(
        exif_data_new_from_data(bytes.data(), static_cast<unsigned>(bytes.size())),
        &exif_data_unref);
    if (!data) return facts;
    const int orientation = short_value(*data, EXIF_TAG_ORIENTATION).value_or(1);
    if (orientation >= 1 && orientation <= 8) facts.orientation = orientation;
    const int focal = short_value(*data, EXIF_TAG_FOCAL_LENGTH_IN_35MM_FILM).value_or(0);
    if (focal > 0 && focal < 2000) facts.focal_length_35mm = focal;
    facts.taken = time_taken(*data);
    return facts;
}

}  // namespace loafmark::analysis
