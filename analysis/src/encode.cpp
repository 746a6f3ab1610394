#include <csetjmp>
#include <cstdio>
#include <cstdlib>
#include <memory>
#include <stdexcept>

#include <jpeglib.h>
#include <png.h>

#include "analysis/measure.h"

namespace loafmark::analysis {
namespace {

void check_pixels(int width, int height, std::size_t values, std::size_t per_pixel) {
    constexpr int most = 65500;  // JPEG's own limit
    if (width < 1 || height < 1 || width > most || height > most)
        throw std::invalid_argument("a picture to encode is 1 to 65500 pixels wide and high");
    if (values != per_pixel * static_cast<std::size_t>(width) * static_cast<std::size_t>(height))
        throw std::invalid_argument("a picture's bytes do not fit its size");
}

// libpng's simple interface writes 16-bit grey as linear light only by name: the numbers pass
// through unchanged.
std::vector<std::uint8_t> write_png(png_uint_32 format, int width, int height, const void* pixels) {
    png_image image{};
    image.version = PNG_IMAGE_VERSION;
    image.width = static_cast<png_uint_32>(width);
    image.height = static_cast<png_uint_32>(height);
    image.format = format;
    png_alloc_size_t size = 0;
    if (!png_image_write_to_memory(&image, nullptr, &size, 0, pixels, 0, nullptr))
        throw Error("a picture could not be written as PNG (" + std::string(image.message) + ")",
                    "this is a fault of the program");
    std::vector<std::uint8_t> bytes(size);
    png_image_write_to_memory(&image, bytes.data(), &size, 0, pixels, 0, nullptr);
    bytes.resize(size);
    return bytes;
}

}  // namespace

std::vector<std::uint8_t> encode_jpeg(const Picture& picture, int quality) {
    check_pixels(picture.width, picture.height, picture.rgb.size(), 3);
    jpeg_compress_struct info{};
    jpeg_error_mgr errors{};
    info.err = jpeg_std_error(&errors);  // its default ends the program: only memory can fail here
    jpeg_create_compress(&info);
    unsigned char* buffer = nullptr;
    unsigned long size = 0;
    jpeg_mem_dest(&info, &buffer, &size);
    info.image_width = static_cast<JDIMENSION>(picture.width);
    info.image_height = static_cast<JDIMENSION>(picture.height);
    info.input_components = 3;
    info.in_color_space = JCS_RGB;
    jpeg_set_defaults(&info);
    jpeg_set_quality(&info, quality, TRUE);
    jpeg_start_compress(&info, TRUE);
    while (info.next_scanline < info.image_height) {
        const std::size_t at = static_cast<std::size_t>(info.next_scanline) * picture.width * 3;
        auto* row = const_cast<JSAMPROW>(picture.rgb.data() + at);
        jpeg_write_scanlines(&info, &row, 1);
    }
    jpeg_finish_compress(&info);
    jpeg_destroy_compress(&info);
    const std::unique_ptr<unsigned char, decltype(&std::free)> owner(buffer, &std::free);
    return {buffer, buffer + size};
}

std::vector<std::uint8_t> encode_png(const Picture& picture) {
    check_pixels(picture.width, picture.height, picture.rgb.size(), 3);
    return write_png(PNG_FORMAT_RGB, picture.width, picture.height, picture.rgb.data());
}

std::vector<std::uint8_t> encode_png(const LabelMap& map) {
    check_pixels(map.width, map.height, map.labels.size(), 1);
    return write_png(PNG_FORMAT_LINEAR_Y, map.width, map.height, map.labels.data());
}

}  // namespace loafmark::analysis
