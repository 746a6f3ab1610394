#include <memory>

#include <libheif/heif.h>

#include "catch.h"
#include "codecs.h"
#include "photo.h"
#include "photo_bytes.h"
#include "refusal.h"
#include "scratch_folder.h"

#if defined(__SANITIZE_ADDRESS__)
// The encoder, which only these tests use, keeps some memory of its own to the end.
extern "C" const char* __lsan_default_suppressions() {
    return "leak:libx265";
}
#endif

namespace loafmark::analysis {
namespace {

heif_error append(heif_context*, const void* data, size_t size, void* to) {
    const auto* from = static_cast<const std::uint8_t*>(data);
    auto& bytes = *static_cast<made::ByteString*>(to);
    bytes.insert(bytes.end(), from, from + size);
    return {heif_error_Ok, heif_suberror_Unspecified, "ok"};
}

void require(const heif_error& error) {
    INFO(error.message);
    REQUIRE(error.code == heif_error_Ok);
}

using Context = std::unique_ptr<heif_context, decltype(&heif_context_free)>;
using Encoder = std::unique_ptr<heif_encoder, decltype(&heif_encoder_release)>;
using Image = std::unique_ptr<heif_image, decltype(&heif_image_release)>;

// Nothing where this system's libheif cannot write HEIC.
Encoder hevc_encoder(heif_context* context) {
    heif_encoder* encoder = nullptr;
    if (heif_context_get_encoder_for_format(context, heif_compression_HEVC, &encoder).code)
        encoder = nullptr;
    return {encoder, &heif_encoder_release};
}

Image heif_image_of(const cv::Mat& rgb) {
    heif_image* raw = nullptr;
    require(heif_image_create(rgb.cols, rgb.rows, heif_colorspace_RGB, heif_chroma_interleaved_RGB,
                              &raw));
    Image image(raw, &heif_image_release);
    require(heif_image_add_plane(raw, heif_channel_interleaved, rgb.cols, rgb.rows, 8));
    int stride = 0;
    std::uint8_t* to = heif_image_get_plane(raw, heif_channel_interleaved, &stride);
    for (int y = 0; y < rgb.rows; ++y)
        std::copy_n(rgb.ptr(y), rgb.cols * 3, to + static_cast<std::ptrdiff_t>(y) * stride);
    return image;
}

// A HEIC whose own rotation (irot, imir) brings `stored` upright as EXIF's `orientation` would, and
// whose EXIF repeats it, as phones write them. Empty where libheif has no encoder.
made::ByteString heic_of(const cv::Mat& stored, int orientation) {
    const Context context(heif_context_alloc(), &heif_context_free);
    const Encoder encoder = hevc_encoder(context.get());
    if (!encoder) return {};
    heif_encoder_set_lossy_quality(encoder.get(), 90);
    const std::unique_ptr<heif_encoding_options, decltype(&heif_encoding_options_free)> options(
        heif_encoding_options_alloc(), &heif_encoding_options_free);
    options->image_orientation = static_cast<heif_orientation>(orientation);
    const Image image = heif_image_of(stored);
    heif_image_handle* raw = nullptr;
    require(
        heif_context_encode_image(context.get(), image.get(), encoder.get(), options.get(), &raw));
    const std::unique_ptr<heif_image_handle, decltype(&heif_image_handle_release)> handle(
        raw, &heif_image_handle_release);
    made::ExifPlan plan;
    plan.orientation = orientation;
    plan.taken = "2026:03:01 18:20:00";
    plan.focal_length_35mm = 26;
    const made::ByteString block = made::exif_block(plan);
    require(heif_context_add_exif_metadata(context.get(), raw, block.data(),
                                           static_cast<int>(block.size())));
    made::ByteString bytes;
    heif_writer writer{1, &append};
    require(heif_context_write(context.get(), &writer, &bytes));
    return bytes;
}

// HEVC wants more pixels than quarters() has.
cv::Mat large_quarters() {
    cv::Mat large(256, 384, CV_8UC3);
    for (int y = 0; y < large.rows; ++y)
        for (int x = 0; x < large.cols; ++x)
            large.at<cv::Vec3b>(y, x) = made::quarters().at<cv::Vec3b>(y / 8, x / 8);
    return large;
}

bool can_write_heic() {
    const Context context(heif_context_alloc(), &heif_context_free);
    if (hevc_encoder(context.get())) return true;
    WARN("skipped: this system's libheif cannot write HEIC");
    return false;
}

TEST_CASE("a HEIC is turned once, though both it and its EXIF tell the rotation") {
    if (!can_write_heic()) return;
    const ScratchFolder folder;
    for (const int orientation : {1, 3, 6, 8}) {
        CAPTURE(orientation);
        const auto bytes = heic_of(made::stored_as(large_quarters(), orientation), orientation);
        const Photo photo = load_photo(folder.file("slice.heic", bytes));
        CHECK(photo.rgb.size() == cv::Size(384, 256));
        CHECK(made::quarters_seen(photo.rgb) == "RGBW");
    }
}

TEST_CASE("a HEIC's EXIF tells time and focal length") {
    if (!can_write_heic()) return;
    const ScratchFolder folder;
    const Photo photo = load_photo(folder.file("slice.heic", heic_of(large_quarters(), 1)));
    CHECK(photo.taken == "2026-03-01T18:20:00");
    CHECK(photo.focal_length_35mm == 26.0);
}

TEST_CASE("a HEIC that breaks off is refused") {
    if (!can_write_heic()) return;
    const made::ByteString whole = heic_of(large_quarters(), 1);
    for (int part = 1; part < 10; ++part) {
        made::ByteString cut = whole;
        cut.resize(whole.size() * static_cast<std::size_t>(part) / 10);
        CAPTURE(part);
        const std::string refusal = refusal_of([&] { return decode_heif(cut); });
        CHECK(refusal.starts_with("is a damaged HEIC ("));
        CHECK(refusal.ends_with(") | copy it from the phone again, or share it as JPEG"));
    }
}

TEST_CASE("a HEIC with damaged pixels is refused or read, never a crash") {
    if (!can_write_heic()) return;
    const made::ByteString whole = heic_of(large_quarters(), 1);
    for (std::size_t at = 0; at < whole.size(); at += whole.size() / 40 + 1) {
        made::ByteString damaged = whole;
        damaged[at] ^= 0xFF;
        const std::string refusal = refusal_of([&] { return decode_heif(damaged); });
        CHECK((refusal == "accepted" || refusal.starts_with("is a damaged HEIC (") ||
               refusal.starts_with("is a HEIF picture of a kind that cannot be read here (") ||
               refusal.starts_with("has ")));
    }
}

}  // namespace
}  // namespace loafmark::analysis
