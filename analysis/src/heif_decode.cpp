#include <memory>

#include <libheif/heif.h>

#include "codecs.h"

namespace loafmark::analysis {
namespace {

void check(const heif_error& error) {
    if (error.code == heif_error_Ok) return;
    if (error.code == heif_error_Unsupported_feature ||
        error.code == heif_error_Unsupported_filetype)
        throw DecodeFailure{"is a HEIF picture of a kind that cannot be read here (" +
                                std::string(error.message) + ")",
                            "share it from the phone as JPEG"};
    throw DecodeFailure{"is a damaged HEIC (" + std::string(error.message) + ")",
                        "copy it from the phone again, or share it as JPEG"};
}

template <class T, void (*Release)(T*)>
struct Releaser {
    void operator()(T* thing) const { Release(thing); }
};
template <class T, void (*Release)(T*)>
using Owned = std::unique_ptr<T, Releaser<T, Release>>;

void release_handle(heif_image_handle* handle) {
    heif_image_handle_release(handle);
}
void release_image(heif_image* image) {
    heif_image_release(image);
}

std::vector<std::uint8_t> exif_of(const heif_image_handle* handle) {
    heif_item_id id = 0;
    if (heif_image_handle_get_list_of_metadata_block_IDs(handle, "Exif", &id, 1) != 1) return {};
    std::vector<std::uint8_t> block(heif_image_handle_get_metadata_size(handle, id));
    // The block starts with a 4-byte offset to the TIFF header (ISO/IEC 23008-12, A.2.1).
    if (block.size() < 4 || heif_image_handle_get_metadata(handle, id, block.data()).code)
        return {};
    const std::size_t skip =
        4 + (static_cast<std::size_t>(block[0]) << 24 | block[1] << 16 | block[2] << 8 | block[3]);
    if (skip >= block.size()) return {};
    block.erase(block.begin(), block.begin() + static_cast<std::ptrdiff_t>(skip));
    return block;
}

}  // namespace

DecodedPicture decode_heif(Bytes file) {
    const Owned<heif_context, heif_context_free> context(heif_context_alloc());
    check(heif_context_read_from_memory_without_copy(context.get(), file.data(), file.size(),
                                                     nullptr));
    heif_image_handle* raw_handle = nullptr;
    check(heif_context_get_primary_image_handle(context.get(), &raw_handle));
    const Owned<heif_image_handle, release_handle> handle(raw_handle);
    check_size(static_cast<std::uint64_t>(heif_image_handle_get_width(handle.get())),
               static_cast<std::uint64_t>(heif_image_handle_get_height(handle.get())));

    heif_image* raw_image = nullptr;
    check(heif_decode_image(handle.get(), &raw_image, heif_colorspace_RGB,
                            heif_chroma_interleaved_RGB, nullptr));
    const Owned<heif_image, release_image> image(raw_image);
    int stride = 0;
    const std::uint8_t* pixels =
        heif_image_get_plane_readonly(image.get(), heif_channel_interleaved, &stride);
    const int width = heif_image_get_width(image.get(), heif_channel_interleaved);
    const int height = heif_image_get_height(image.get(), heif_channel_interleaved);

    DecodedPicture picture;
    cv::Mat(height, width, CV_8UC3, const_cast<std::uint8_t*>(pixels),
            static_cast<std::size_t>(stride))
        .copyTo(picture.rgb);
    picture.exif = exif_of(handle.get());
    // libheif applies the file's own rotation (irot, imir); the EXIF orientation repeats it and
    // must not turn the picture a second time (ISO/IEC 23008-12, A.2.1).
    picture.already_upright = true;
    return picture;
}

}  // namespace loafmark::analysis
