#include <algorithm>

#include "analysis/measure.h"
#include "catch.h"
#include "codecs.h"
#include "photo_bytes.h"
#include "refusal.h"

namespace loafmark::analysis {
namespace {

std::string refusal(const made::ByteString& bytes) {
    return refusal_of([&] { return decode_jpeg(bytes); });
}

// Detail everywhere, so that there are many coded pixels to damage.
cv::Mat speckled() {
    cv::Mat picture(160, 200, CV_8UC3);
    cv::RNG random(7);
    random.fill(picture, cv::RNG::UNIFORM, 0, 256);
    return picture;
}

TEST_CASE("a JPEG's pixels come back close to what was stored") {
    cv::Mat smooth(64, 96, CV_8UC3);
    for (int y = 0; y < smooth.rows; ++y)
        for (int x = 0; x < smooth.cols; ++x)
            smooth.at<cv::Vec3b>(y, x) =
                cv::Vec3b(static_cast<uchar>(60 + x), static_cast<uchar>(60 + y),
                          static_cast<uchar>(200 - x));
    const DecodedPicture decoded = decode_jpeg(made::jpeg_of(smooth, 95));
    CHECK(cv::norm(decoded.rgb, smooth, cv::NORM_L1) / (64 * 96 * 3) < 1.5);
    CHECK_FALSE(decoded.already_upright);
    CHECK(decoded.exif.empty());
}

TEST_CASE("bytes behind a JPEG's end do not matter") {
    made::ByteString jpeg = made::jpeg_of(made::quarters());
    const std::string tail = "a phone's own trailer \xFF\xD8\xFF of some bytes";
    jpeg.insert(jpeg.end(), tail.begin(), tail.end());
    CHECK(made::quarters_seen(decode_jpeg(jpeg).rgb) == "RGBW");
}

TEST_CASE("a JPEG with a stretch of zeros in its coded pixels is refused") {
    made::ByteString jpeg = made::jpeg_of(speckled());
    // What a failing memory card gives for a block that it lost.
    const auto from = jpeg.begin() + static_cast<std::ptrdiff_t>(made::scan_start(jpeg)) + 5000;
    std::fill(from, from + 4096, std::uint8_t{0});
    const std::string refused = refusal(jpeg);
    CHECK(refused.starts_with("is a damaged JPEG (Corrupt JPEG data: "));
    CHECK(
        refused.ends_with(" extraneous bytes before marker 0xd9) | copy it from the phone again, "
                          "or take a new photo"));
}

TEST_CASE("a JPEG whose coded pixels end early is refused") {
    made::ByteString jpeg = made::jpeg_of(speckled());
    const auto from = jpeg.begin() + static_cast<std::ptrdiff_t>(made::scan_start(jpeg)) + 5000;
    jpeg.erase(from, from + 4096);
    CHECK(refusal(jpeg) ==
          "is a damaged JPEG (Corrupt JPEG data: premature end of data segment) | copy it from the "
          "phone again, or take a new photo");
}

TEST_CASE("a camera's padding before the end of a JPEG does not matter") {
    made::ByteString jpeg = made::jpeg_of(made::quarters());
    jpeg.insert(jpeg.end() - 2, 60, std::uint8_t{0});
    CHECK(made::quarters_seen(decode_jpeg(jpeg).rgb) == "RGBW");
}

TEST_CASE("a JPEG that breaks off anywhere is refused, never half read") {
    const made::ByteString whole = made::jpeg_of(speckled());
    for (int part = 1; part < 20; ++part) {
        made::ByteString cut = whole;
        cut.resize(whole.size() * static_cast<std::size_t>(part) / 20);
        CAPTURE(part);
        CHECK(refusal(cut) ==
              "is a damaged JPEG (Premature end of JPEG file) | copy it from the phone again, or "
              "take a new photo");
    }
}

TEST_CASE("the EXIF block is handed on as it stands") {
    made::ExifPlan plan;
    plan.orientation = 6;
    const made::ByteString block = made::exif_block(plan);
    CHECK(decode_jpeg(made::with_exif(made::jpeg_of(made::quarters()), block)).exif == block);
}

TEST_CASE("another program's APP1 segment before EXIF does not hide it") {
    made::ExifPlan plan;
    plan.orientation = 6;
    const made::ByteString block = made::exif_block(plan);
    const std::string xmp("http://ns.adobe.com/xap/1.0/\0<x/>", 33);
    const auto jpeg = made::with_exif(made::with_exif(made::jpeg_of(made::quarters()), block),
                                      {xmp.begin(), xmp.end()});
    CHECK(decode_jpeg(jpeg).exif == block);
}

TEST_CASE("a JPEG can be had smaller, its sides rounded up, and nonsense is refused") {
    const cv::Mat grey(65, 100, CV_8UC3, cv::Scalar(90, 120, 150));
    const made::ByteString bytes = made::jpeg_of(grey, 95);
    const Picture half = picture_of_jpeg(bytes, 2);
    CHECK(half.width == 50);
    CHECK(half.height == 33);
    CHECK(std::abs(half.rgb[1] - 120) <= 2);
    CHECK(picture_of_jpeg(bytes).width == 100);
    CHECK_THROWS_AS(picture_of_jpeg(bytes, 3), std::invalid_argument);
    CHECK_THROWS_AS(picture_of_jpeg(made::ByteString{'n', 'o'}), Error);
}

}  // namespace
}  // namespace loafmark::analysis
