#include "photo.h"

#include "catch.h"
#include "photo_bytes.h"
#include "refusal.h"
#include "scratch_folder.h"

namespace loafmark::analysis {
namespace {

const std::string again = " | copy it from the phone again, or take a new photo";

struct Files {
    ScratchFolder folder;

    std::filesystem::path path(const std::string& name, const made::ByteString& bytes) const {
        return folder.file(name, bytes);
    }
    // The refusal without the folder's name, which differs from run to run.
    std::string refusal(const std::string& name, const made::ByteString& bytes) const {
        return stripped(refusal_of([&] { return load_photo(path(name, bytes)); }));
    }
    std::string stripped(std::string text) const {
        const std::string prefix = folder.path().string() + "/";
        return text.starts_with(prefix) ? text.substr(prefix.size()) : text;
    }
};

TEST_CASE("a PNG comes back pixel for pixel, with the file's name") {
    const Files files;
    const Photo photo = load_photo(files.path("slice.png", made::png_of(made::quarters())));
    CHECK(photo.name == "slice.png");
    CHECK(cv::norm(photo.rgb, made::quarters(), cv::NORM_INF) == 0);
    CHECK_FALSE(photo.taken);
    CHECK_FALSE(photo.focal_length_35mm);
}

TEST_CASE("a JPEG comes back in its colours, red first") {
    const Files files;
    const Photo photo = load_photo(files.path("slice.jpg", made::jpeg_of(made::quarters(), 95)));
    CHECK(photo.rgb.size() == made::quarters().size());
    CHECK(made::quarters_seen(photo.rgb) == "RGBW");
}

TEST_CASE("what a file holds decides its format, not its name") {
    const Files files;
    const Photo photo = load_photo(files.path("slice.jpg", made::png_of(made::quarters())));
    CHECK(made::quarters_seen(photo.rgb) == "RGBW");
}

TEST_CASE("a JPEG of any EXIF orientation comes out upright") {
    const Files files;
    for (int orientation = 1; orientation <= 8; ++orientation) {
        CAPTURE(orientation);
        const cv::Mat stored = made::stored_as(made::quarters(), orientation);
        made::ExifPlan plan;
        plan.orientation = orientation;
        const auto jpeg = made::with_exif(made::jpeg_of(stored), made::exif_block(plan));
        const Photo photo = load_photo(files.path("slice.jpg", jpeg));
        CHECK(photo.rgb.size() == cv::Size(48, 32));
        CHECK(made::quarters_seen(photo.rgb) == "RGBW");
    }
}

TEST_CASE("a PNG of any EXIF orientation comes out upright") {
    const Files files;
    for (int orientation = 1; orientation <= 8; ++orientation) {
        CAPTURE(orientation);
        const cv::Mat stored = made::stored_as(made::quarters(), orientation);
        made::ExifPlan plan;
        plan.orientation = orientation;
        const made::ByteString block = made::exif_block(plan);
        const made::ByteString tiff(block.begin() + 6, block.end());
        const auto png = made::with_chunk(made::png_of(stored), made::png_chunk("eXIf", tiff));
        const Photo photo = load_photo(files.path("slice.png", png));
        CHECK(cv::norm(photo.rgb, made::quarters(), cv::NORM_INF) == 0);
    }
}

TEST_CASE("an orientation that EXIF does not know turns nothing") {
    const Files files;
    for (const int orientation : {0, 9, 255}) {
        made::ExifPlan plan;
        plan.orientation = orientation;
        const auto jpeg = made::with_exif(made::jpeg_of(made::quarters()), made::exif_block(plan));
        CHECK(made::quarters_seen(load_photo(files.path("slice.jpg", jpeg)).rgb) == "RGBW");
    }
}

TEST_CASE("a photo tells when it was taken and its focal length") {
    const Files files;
    made::ExifPlan plan;
    plan.taken = "2026:03:01 18:20:00";
    plan.focal_length_35mm = 26;
    const auto jpeg = made::with_exif(made::jpeg_of(made::quarters()), made::exif_block(plan));
    const Photo photo = load_photo(files.path("slice.jpg", jpeg));
    CHECK(photo.taken == "2026-03-01T18:20:00");
    CHECK(photo.focal_length_35mm == 26.0);
}

TEST_CASE("a name that leads nowhere is refused") {
    const Files files;
    const auto refused = [&](const std::filesystem::path& path) {
        return files.stripped(refusal_of([&] { return load_photo(path); }));
    };
    CHECK(refused(files.folder.path() / "no.jpg") == "no.jpg does not exist | check the name");
    CHECK(refused(files.folder.path()) ==
          files.folder.path().string() + " is a folder, not a photo | name the photos in it");
    CHECK(files.refusal("empty.jpg", {}) ==
          "empty.jpg is empty (0 bytes) | copy it from the phone again");
}

TEST_CASE("a file that holds no picture is refused, whatever its name") {
    const Files files;
    const std::string recipe = "500 g flour, 340 g water, 10 g salt\n";
    const std::string expected =
        "is not a photo that can be read | give a photo as JPEG, PNG or HEIC";
    CHECK(files.refusal("recipe.jpg", {recipe.begin(), recipe.end()}) == "recipe.jpg " + expected);
    CHECK(files.refusal("one.jpg", {0xFF}) == "one.jpg " + expected);
    const std::string gif = "GIF89a\1\0\1\0";
    CHECK(files.refusal("moving.gif", {gif.begin(), gif.end()}) == "moving.gif " + expected);
}

TEST_CASE("a truncated JPEG is refused, be it half or two bytes that miss") {
    const Files files;
    made::ByteString half = made::jpeg_of(made::quarters());
    half.resize(made::scan_start(half) + (half.size() - made::scan_start(half)) / 2);
    CHECK(files.refusal("half.jpg", half) ==
          "half.jpg is a damaged JPEG (Premature end of JPEG file)" + again);

    made::ByteString nearly = made::jpeg_of(made::quarters());
    nearly.resize(nearly.size() - 2);
    CHECK(files.refusal("nearly.jpg", nearly) ==
          "nearly.jpg is a damaged JPEG (Premature end of JPEG file)" + again);
}

TEST_CASE("a whole thumbnail does not hide that the JPEG around it is truncated") {
    const Files files;
    made::ExifPlan plan;
    plan.orientation = 1;
    plan.thumbnail = made::jpeg_of(made::quarters(), 60);
    const auto whole = made::with_exif(made::jpeg_of(made::quarters()), made::exif_block(plan));
    CHECK(made::quarters_seen(load_photo(files.path("whole.jpg", whole)).rgb) == "RGBW");

    made::ByteString cut(whole);
    cut.resize(cut.size() - 2);
    CHECK(files.refusal("cut.jpg", cut) ==
          "cut.jpg is a damaged JPEG (Premature end of JPEG file)" + again);
    // Not even the frame header is left, only the thumbnail.
    cut.resize(made::exif_block(plan).size() + 10);
    CHECK(files.refusal("stump.jpg", cut) ==
          "stump.jpg is a damaged JPEG (Premature end of JPEG file)" + again);
}

TEST_CASE("a truncated PNG is refused") {
    const Files files;
    made::ByteString png = made::png_of(made::quarters());
    png.resize(png.size() - 20);
    CHECK(files.refusal("half.png", png) ==
          "half.png is a damaged PNG (read beyond end of data) | copy it again, or take a new "
          "photo");
}

TEST_CASE("a picture of too many pixels is refused before any is decoded") {
    const Files files;
    const std::string remedy = " | scale it down to about 12 megapixels";
    CHECK(files.refusal("vast.png", made::png_header(20000, 20000)) ==
          "vast.png has 20000 x 20000 pixels, more than the 64 megapixels that are read" + remedy);
    CHECK(
        files.refusal("vast.jpg", made::with_size(made::jpeg_of(made::quarters()), 65500, 65500)) ==
        "vast.jpg has 65500 x 65500 pixels, more than the 64 megapixels that are read" + remedy);
}

}  // namespace
}  // namespace loafmark::analysis
