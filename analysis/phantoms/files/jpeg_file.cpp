#include <cmath>
#include <cstdio>
#include <cstring>
#include <memory>
#include <stdexcept>
#include <string>

#include <jpeglib.h>
#include <libexif/exif-data.h>

#include "photo_files.h"

namespace loafmark::phantoms {

namespace {

struct ExifDeleter {
    void operator()(ExifData* data) const { exif_data_unref(data); }
};
struct FileCloser {
    void operator()(std::FILE* file) const { std::fclose(file); }
};
using File = std::unique_ptr<std::FILE, FileCloser>;

// The entry's data, zeroed, of `size` bytes; owned by the EXIF tree.
unsigned char* add_entry(ExifData* exif, ExifIfd directory, ExifTag tag, ExifFormat format,
                         unsigned int components, unsigned int size) {
    ExifMem* memory = exif_mem_new_default();
    ExifEntry* entry = exif_entry_new_mem(memory);
    entry->data = static_cast<unsigned char*>(exif_mem_alloc(memory, size));
    entry->size = size;
    entry->tag = tag;
    entry->format = format;
    entry->components = components;
    exif_content_add_entry(exif->ifd[directory], entry);
    exif_entry_unref(entry);
    exif_mem_unref(memory);
    return entry->data;
}

void add_text(ExifData* exif, ExifIfd directory, ExifTag tag, const std::string& text) {
    const unsigned int size = static_cast<unsigned int>(text.size() + 1);
    std::memcpy(add_entry(exif, directory, tag, EXIF_FORMAT_ASCII, size, size), text.c_str(), size);
}

void add_short(ExifData* exif, ExifIfd directory, ExifTag tag, int value) {
    exif_set_short(add_entry(exif, directory, tag, EXIF_FORMAT_SHORT, 1, 2),
                   exif_data_get_byte_order(exif), static_cast<ExifShort>(value));
}

// 2026-11-01T10:00:00 as EXIF writes it, 2026:11:01 10:00:00.
std::string exif_time(std::string iso) {
    for (const std::size_t at : {4U, 7U})
        if (at < iso.size()) iso[at] = ':';
    if (iso.size() > 10) iso[10] = ' ';
    return iso;
}

std::basic_string<unsigned char> exif_block(const PhantomRecipe& recipe, int orientation) {
    const std::unique_ptr<ExifData, ExifDeleter> exif(exif_data_new());
    exif_data_set_byte_order(exif.get(), EXIF_BYTE_ORDER_INTEL);
    const std::string taken = exif_time(recipe.taken);
    add_text(exif.get(), EXIF_IFD_0, EXIF_TAG_MAKE, "Loafmark");
    add_text(exif.get(), EXIF_IFD_0, EXIF_TAG_MODEL, "Rendered slice");
    add_short(exif.get(), EXIF_IFD_0, EXIF_TAG_ORIENTATION, orientation);
    add_text(exif.get(), EXIF_IFD_0, EXIF_TAG_DATE_TIME, taken);
    add_text(exif.get(), EXIF_IFD_EXIF, EXIF_TAG_DATE_TIME_ORIGINAL, taken);
    if (recipe.focal_length_in_exif)
        add_short(exif.get(), EXIF_IFD_EXIF, EXIF_TAG_FOCAL_LENGTH_IN_35MM_FILM,
                  static_cast<int>(std::lround(recipe.camera.focal_35mm)));
    unsigned char* bytes = nullptr;
    unsigned int size = 0;
    exif_data_save_data(exif.get(), &bytes, &size);
    std::basic_string<unsigned char> block(bytes, size);
    std::free(bytes);
    return block;
}

[[noreturn]] void give_up(j_common_ptr info) {
    char text[JMSG_LENGTH_MAX];
    info->err->format_message(info, text);
    throw std::runtime_error(std::string("the JPEG could not be written: ") + text);
}

// Destroys the compressor whichever way the scope is left.
struct Compressor {
    jpeg_error_mgr errors{};
    jpeg_compress_struct info{};
    Compressor() {
        info.err = jpeg_std_error(&errors);
        errors.error_exit = give_up;
        jpeg_create_compress(&info);
    }
    ~Compressor() { jpeg_destroy_compress(&info); }
    Compressor(const Compressor&) = delete;
    Compressor& operator=(const Compressor&) = delete;
};

void compress(Compressor& jpeg, const Picture& photo, int quality,
              const std::basic_string<unsigned char>& exif) {
    jpeg_compress_struct& info = jpeg.info;
    info.image_width = static_cast<JDIMENSION>(photo.width);
    info.image_height = static_cast<JDIMENSION>(photo.height);
    info.input_components = 3;
    info.in_color_space = JCS_RGB;
    jpeg_set_defaults(&info);
    jpeg_set_quality(&info, quality, TRUE);
    jpeg_start_compress(&info, TRUE);
    jpeg_write_marker(&info, JPEG_APP0 + 1, exif.data(), static_cast<unsigned int>(exif.size()));
    while (info.next_scanline < info.image_height) {
        const std::size_t row = static_cast<std::size_t>(info.next_scanline) * photo.width * 3;
        JSAMPROW at = const_cast<JSAMPROW>(photo.rgb.data() + row);  // libjpeg only reads it
        jpeg_write_scanlines(&info, &at, 1);
    }
    jpeg_finish_compress(&info);
}

}  // namespace

void write_photo(const Picture& picture, const PhantomRecipe& recipe, int orientation,
                 const std::filesystem::path& path) {
    const File file(std::fopen(path.c_str(), "wb"));
    if (!file) throw std::runtime_error("cannot write " + path.string());
    Compressor jpeg;
    jpeg_stdio_dest(&jpeg.info, file.get());
    compress(jpeg, picture, recipe.jpeg_quality, exif_block(recipe, orientation));
}

}  // namespace loafmark::phantoms
