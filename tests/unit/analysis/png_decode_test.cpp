#include <png.h>

#include "analysis/measure.h"
#include "catch.h"
#include "codecs.h"
#include "photo_bytes.h"
#include "refusal.h"

namespace loafmark::analysis {
namespace {

std::string refusal(const made::ByteString& bytes) {
    return refusal_of([&] { return decode_png(bytes); });
}

made::ByteString png_with_alpha(const std::vector<std::uint8_t>& rgba, int width) {
    png_image image{};
    image.version = PNG_IMAGE_VERSION;
    image.width = static_cast<png_uint_32>(width);
    image.height = static_cast<png_uint_32>(rgba.size() / 4 / static_cast<std::size_t>(width));
    image.format = PNG_FORMAT_RGBA;
    png_alloc_size_t size = 10000;
    made::ByteString bytes(size);
    REQUIRE(png_image_write_to_memory(&image, bytes.data(), &size, 0, rgba.data(), 0, nullptr));
    bytes.resize(size);
    return bytes;
}

TEST_CASE("a PNG's pixels come back as they were") {
    CHECK(cv::norm(decode_png(made::png_of(made::quarters())).rgb, made::quarters(),
                   cv::NORM_INF) == 0);
}

TEST_CASE("what is transparent in a PNG lies on white") {
    const DecodedPicture decoded = decode_png(png_with_alpha({10, 20, 30, 0, 10, 20, 30, 255}, 2));
    CHECK(decoded.rgb.at<cv::Vec3b>(0, 0) == cv::Vec3b(255, 255, 255));
    CHECK(decoded.rgb.at<cv::Vec3b>(0, 1) == cv::Vec3b(10, 20, 30));
}

TEST_CASE("a grey PNG is read as three equal channels") {
    LabelMap map{2, 1, {0, 65535}};
    const DecodedPicture decoded = decode_png(encode_png(map));
    CHECK(decoded.rgb.at<cv::Vec3b>(0, 0) == cv::Vec3b(0, 0, 0));
    CHECK(decoded.rgb.at<cv::Vec3b>(0, 1) == cv::Vec3b(255, 255, 255));
}

TEST_CASE("a PNG's eXIf chunk gives its EXIF block") {
    made::ExifPlan plan;
    plan.orientation = 8;
    const made::ByteString block = made::exif_block(plan);
    // The chunk starts with the TIFF header (PNG third edition, 11.3.4.5).
    const made::ByteString tiff(block.begin() + 6, block.end());
    const auto png =
        made::with_chunk(made::png_of(made::quarters()), made::png_chunk("eXIf", tiff));
    CHECK(decode_png(png).exif == tiff);
}

TEST_CASE("a PNG that breaks off anywhere is refused, never half read") {
    cv::Mat speckled(160, 200, CV_8UC3);
    cv::RNG(7).fill(speckled, cv::RNG::UNIFORM, 0, 256);
    const made::ByteString whole = made::png_of(speckled);
    for (int part = 1; part < 20; ++part) {
        made::ByteString cut = whole;
        cut.resize(whole.size() * static_cast<std::size_t>(part) / 20);
        CAPTURE(part);
        CHECK(refusal(cut) ==
              "is a damaged PNG (read beyond end of data) | copy it again, or take a new photo");
    }
}

TEST_CASE("a PNG whose coded pixels were damaged is refused") {
    made::ByteString png = made::png_of(made::quarters());
    for (std::size_t i = 60; i < 80 && i < png.size(); ++i)
        png[i] ^= 0x5A;
    CHECK(refusal(png).starts_with("is a damaged PNG ("));
}

TEST_CASE("a PNG that claims a vast size is refused before its pixels are made room for") {
    CHECK(refusal(made::png_header(20000, 20000)) ==
          "has 20000 x 20000 pixels, more than the 64 megapixels that are read | scale it down to "
          "about 12 megapixels");
}

}  // namespace
}  // namespace loafmark::analysis
