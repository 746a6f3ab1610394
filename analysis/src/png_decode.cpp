#include <algorithm>
#include <cstring>
#include <string_view>

#include <png.h>

#include "codecs.h"

namespace loafmark::analysis {
namespace {

// The eXIf chunk (PNG third edition, 11.3.4.5), or nothing. Walks the chunks itself: libpng's
// simple interface does not hand it out.
std::vector<std::uint8_t> exif_of(Bytes file) {
    std::size_t at = 8;
    while (at + 12 <= file.size()) {
        const auto length = static_cast<std::size_t>(file[at]) << 24 | file[at + 1] << 16 |
                            file[at + 2] << 8 | file[at + 3];
        const std::string_view type(reinterpret_cast<const char*>(&file[at + 4]), 4);
        if (length > file.size() - at - 12) break;
        if (type == "eXIf") return {&file[at + 8], &file[at + 8] + length};
        at += 12 + length;
    }
    return {};
}

struct Image {
    png_image png{};
    Image() { png.version = PNG_IMAGE_VERSION; }
    ~Image() { png_image_free(&png); }
    Image(const Image&) = delete;
    Image& operator=(const Image&) = delete;

    [[noreturn]] void fail() const {
        throw DecodeFailure{"is a damaged PNG (" + std::string(png.message) + ")",
                            "copy it again, or take a new photo"};
    }
};

}  // namespace

DecodedPicture decode_png(Bytes file) {
    Image image;
    if (!png_image_begin_read_from_memory(&image.png, file.data(), file.size())) image.fail();
    check_size(image.png.width, image.png.height);
    image.png.format = PNG_FORMAT_RGB;
    DecodedPicture picture;
    picture.exif = exif_of(file);
    picture.rgb.create(static_cast<int>(image.png.height), static_cast<int>(image.png.width),
                       CV_8UC3);
    // Transparent parts lie on white, as a viewer shows them.
    const png_color white = {255, 255, 255};
    if (!png_image_finish_read(&image.png, &white, picture.rgb.data,
                               static_cast<png_int_32>(picture.rgb.step), nullptr))
        image.fail();
    // The simple interface forgives a truncated picture with a warning; a baker should know.
    if (image.png.warning_or_error & PNG_IMAGE_WARNING &&
        std::strstr(image.png.message, "Not enough"))
        image.fail();
    return picture;
}

}  // namespace loafmark::analysis
