#include <stdexcept>

#include <png.h>

#include "analysis/measure.h"
#include "catch.h"
#include "codecs.h"
#include "photo_bytes.h"
#include "pictures.h"

namespace loafmark::analysis {
namespace {

TEST_CASE("a picture survives PNG unchanged") {
    const Picture picture = picture_of(made::quarters());
    CHECK(picture_of(decode_png(encode_png(picture)).rgb) == picture);
}

TEST_CASE("a lower JPEG quality makes a smaller file of the same size in pixels") {
    cv::Mat speckled(100, 120, CV_8UC3);
    cv::RNG(7).fill(speckled, cv::RNG::UNIFORM, 0, 256);
    const Picture picture = picture_of(speckled);
    CHECK(encode_jpeg(picture, 40).size() < encode_jpeg(picture, 95).size());
    CHECK(decode_jpeg(encode_jpeg(picture, 40)).rgb.size() == speckled.size());
}

TEST_CASE("a label map is written as 16-bit grey whose numbers come back exactly") {
    const std::vector<std::uint16_t> numbers = {0, 1, 258, 40000, 65535, 3};
    const std::vector<std::uint8_t> bytes = encode_png(LabelMap{3, 2, numbers});
    CHECK(bytes[24] == 16);  // bit depth (PNG third edition, 11.2.1)
    CHECK(bytes[25] == 0);   // greyscale
    png_image image{};
    image.version = PNG_IMAGE_VERSION;
    REQUIRE(png_image_begin_read_from_memory(&image, bytes.data(), bytes.size()));
    image.format = PNG_FORMAT_LINEAR_Y;
    std::vector<std::uint16_t> read(numbers.size());
    REQUIRE(png_image_finish_read(&image, nullptr, read.data(), 0, nullptr));
    CHECK(read == numbers);
}

TEST_CASE("a picture without pixels, or with too few for its size, is refused") {
    CHECK_THROWS_AS(encode_jpeg(Picture{}), std::invalid_argument);
    CHECK_THROWS_AS(encode_png(Picture{}), std::invalid_argument);
    CHECK_THROWS_AS(encode_png(LabelMap{}), std::invalid_argument);
    CHECK_THROWS_AS(encode_jpeg(Picture{4, 4, {1, 2, 3}}), std::invalid_argument);
    CHECK_THROWS_AS(encode_png(Picture{4, 4, {1, 2, 3}}), std::invalid_argument);
}

TEST_CASE("label maps hold numbers up to 65535") {
    cv::Mat labels = cv::Mat::zeros(2, 2, CV_32S);
    labels.at<int>(1, 1) = 65535;
    CHECK(label_map_of(labels).labels == std::vector<std::uint16_t>{0, 0, 0, 65535});
    labels.at<int>(1, 1) = 65536;
    CHECK_THROWS_AS(label_map_of(labels), Error);
}

}  // namespace
}  // namespace loafmark::analysis
