#include "reports/pictures.h"

#include <string_view>
#include <vector>

#include "catch.h"

using namespace loafmark;
using namespace loafmark::reports;

namespace {

std::string encoded(std::string_view text) {
    return base64(std::vector<std::uint8_t>(text.begin(), text.end()));
}

}  // namespace

TEST_CASE("base64 agrees with the examples of RFC 4648") {
    CHECK(encoded("") == "");
    CHECK(encoded("f") == "Zg==");
    CHECK(encoded("fo") == "Zm8=");
    CHECK(encoded("foo") == "Zm9v");
    CHECK(encoded("foob") == "Zm9vYg==");
    CHECK(encoded("fooba") == "Zm9vYmE=");
    CHECK(encoded("foobar") == "Zm9vYmFy");
    CHECK(encoded("\xff\xfe\xfd") == "//79");
}

TEST_CASE("only pictures are embedded") {
    journal::ReadingPicture picture;
    picture.media_type = "image/png";
    picture.bytes = {'f', 'o', 'o'};
    CHECK(data_uri(picture) == "data:image/png;base64,Zm9v");
    picture.media_type = "text/html";
    CHECK(data_uri(picture) == "");
}

TEST_CASE("a picture's width in mm follows from its scale") {
    journal::ReadingPicture picture;
    picture.width_px = 500;
    CHECK_FALSE(has_scale(picture));
    picture.mm_per_pixel = 0.25;
    REQUIRE(has_scale(picture));
    CHECK(width_mm(picture) == 125);
    picture.mm_per_pixel = 0;
    CHECK_FALSE(has_scale(picture));
}
