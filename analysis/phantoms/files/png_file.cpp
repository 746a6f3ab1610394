#include <cstdio>
#include <memory>
#include <stdexcept>
#include <vector>

#include <png.h>

#include "photo_files.h"

namespace loafmark::phantoms {

namespace {

struct FileCloser {
    void operator()(std::FILE* file) const { std::fclose(file); }
};

[[noreturn]] void give_up(png_structp, png_const_charp text) {
    throw std::runtime_error(std::string("the PNG could not be written: ") + text);
}

struct Writer {
    png_structp png = png_create_write_struct(PNG_LIBPNG_VER_STRING, nullptr, give_up, nullptr);
    png_infop info = png_create_info_struct(png);
    Writer() = default;
    ~Writer() { png_destroy_write_struct(&png, &info); }
    Writer(const Writer&) = delete;
    Writer& operator=(const Writer&) = delete;
};

}  // namespace

void write_label_map(const LabelMap& map, const std::filesystem::path& path) {
    const std::unique_ptr<std::FILE, FileCloser> file(std::fopen(path.c_str(), "wb"));
    if (!file) throw std::runtime_error("cannot write " + path.string());
    Writer writer;
    png_init_io(writer.png, file.get());
    png_set_compression_level(writer.png, 9);
    png_set_IHDR(writer.png, writer.info, static_cast<png_uint_32>(map.width),
                 static_cast<png_uint_32>(map.height), 16, PNG_COLOR_TYPE_GRAY, PNG_INTERLACE_NONE,
                 PNG_COMPRESSION_TYPE_DEFAULT, PNG_FILTER_TYPE_DEFAULT);
    png_write_info(writer.png, writer.info);
    std::vector<png_byte> row(static_cast<std::size_t>(map.width) * 2);
    for (int y = 0; y < map.height; ++y) {
        for (int x = 0; x < map.width; ++x) {
            const std::uint16_t v = map.labels[static_cast<std::size_t>(y) * map.width + x];
            row[static_cast<std::size_t>(x) * 2] = static_cast<png_byte>(v >> 8);
            row[static_cast<std::size_t>(x) * 2 + 1] = static_cast<png_byte>(v & 255);
        }
        png_write_row(writer.png, row.data());
    }
    png_write_end(writer.png, writer.info);
}

}  // namespace loafmark::phantoms
