#include <algorithm>
#include <array>
#include <fstream>
#include <sstream>
#include <string_view>

#include "analysis/error.h"
#include "codecs.h"
#include "exif.h"
#include "photo.h"

namespace loafmark::analysis {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view wanted = "give a photo as JPEG, PNG or HEIC";

std::vector<std::uint8_t> read_file(const fs::path& file) {
    std::error_code error;
    const fs::file_status status = fs::status(file, error);
    if (!fs::exists(status)) throw Error(file.string() + " does not exist", "check the name");
    if (fs::is_directory(status))
        throw Error(file.string() + " is a folder, not a photo", "name the photos in it");
    // A photo of 64 megapixels is below this even as PNG; a film is not.
    constexpr std::uintmax_t most_bytes = 400'000'000;
    if (fs::is_regular_file(status) && fs::file_size(file, error) > most_bytes)
        throw Error(file.string() + " is larger than 400 MB: no photo", std::string(wanted));
    std::ifstream stream(file, std::ios::binary);
    if (!stream.is_open())
        throw Error(file.string() + " cannot be opened", "check its permissions");
    std::vector<std::uint8_t> bytes;
    // In pieces, since a pipe has no size.
    constexpr std::size_t piece = 1 << 20;
    while (stream) {
        const std::size_t before = bytes.size();
        bytes.resize(before + piece);
        stream.read(reinterpret_cast<char*>(bytes.data() + before), piece);
        bytes.resize(before + static_cast<std::size_t>(stream.gcount()));
    }
    if (!stream.eof()) throw Error(file.string() + " cannot be read", "check its permissions");
    return bytes;
}

enum class Format { jpeg, png, heif, other };

Format format_of(Bytes file) {
    const auto starts = [&](std::size_t at, std::string_view with) {
        return file.size() >= at + with.size() &&
               std::equal(with.begin(), with.end(), file.begin() + static_cast<std::ptrdiff_t>(at),
                          [](char a, std::uint8_t b) { return static_cast<std::uint8_t>(a) == b; });
    };
    if (starts(0, "\xFF\xD8\xFF")) return Format::jpeg;
    if (starts(0, "\x89PNG\r\n\x1A\n")) return Format::png;
    if (starts(4, "ftyp"))
        for (const char* brand : {"heic", "heix", "heim", "heis", "hevc", "mif1", "msf1", "avif"})
            if (starts(8, brand)) return Format::heif;
    return Format::other;
}

DecodedPicture decode(Bytes file) {
    switch (format_of(file)) {
        case Format::jpeg:
            return decode_jpeg(file);
        case Format::png:
            return decode_png(file);
        case Format::heif:
            return decode_heif(file);
        case Format::other:
            break;
    }
    throw DecodeFailure{"is not a photo that can be read", std::string(wanted)};
}

// EXIF 2.3, tag 0x0112: which stored side is the picture's top and left.
cv::Mat upright(const cv::Mat& stored, int orientation) {
    cv::Mat turned = stored;
    if (orientation >= 5) cv::transpose(stored, turned);
    constexpr int none = 2;
    constexpr std::array<int, 9> flip = {none, none, 1, -1, 0, none, 1, -1, 0};
    const int code = flip[static_cast<std::size_t>(orientation)];
    if (code == none) return turned;
    cv::Mat flipped;
    cv::flip(turned, flipped, code);
    return flipped;
}

}  // namespace

void check_size(std::uint64_t width, std::uint64_t height) {
    if (width == 0 || height == 0) throw DecodeFailure{"has no pixels", "take a new photo"};
    const double megapixels = static_cast<double>(width) * static_cast<double>(height) / 1e6;
    if (megapixels <= most_megapixels) return;
    std::ostringstream what;
    what << "has " << width << " x " << height << " pixels, more than the " << most_megapixels
         << " megapixels that are read";
    throw DecodeFailure{what.str(), "scale it down to about 12 megapixels"};
}

Photo load_photo(const fs::path& file) {
    const std::vector<std::uint8_t> bytes = read_file(file);
    if (bytes.empty())
        throw Error(file.string() + " is empty (0 bytes)", "copy it from the phone again");
    try {
        const DecodedPicture picture = decode(bytes);
        const ExifFacts facts = read_exif(picture.exif);
        return {file.filename().string(),
                picture.already_upright ? picture.rgb : upright(picture.rgb, facts.orientation),
                facts.taken, facts.focal_length_35mm};
    } catch (const DecodeFailure& failure) {
        throw Error(file.string() + " " + failure.what, failure.remedy);
    }
}

}  // namespace loafmark::analysis
