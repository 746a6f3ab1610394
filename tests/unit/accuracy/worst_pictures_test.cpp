#include "worst_pictures.h"

#include "catch.h"

using namespace loafmark;
using namespace loafmark::accuracy;

namespace {

PhotoComparison photo_of(std::optional<double> iou) {
    PhotoComparison photo{"a.jpg", "", 1, {SliceComparison{}}};
    photo.slices[0].outcomes[4] = {true, iou, {}, 0};
    return photo;
}

}  // namespace

TEST_CASE("photos with misses come before those with a poor outline") {
    const std::vector<PhotoComparison> photos{photo_of(0.99), photo_of(0.91), photo_of({}),
                                              photo_of(0.97)};
    CHECK(worst_photos(photos, 3) == std::vector<std::size_t>{2, 1, 3});
    CHECK(worst_photos(photos, 9).size() == 4);
}

TEST_CASE("a picture is shrunk by whole blocks until its longest side fits") {
    Picture picture{6, 4, std::vector<std::uint8_t>(6 * 4 * 3, 10)};
    picture.rgb[0] = 50;
    const Picture small = shrunk(picture, 3);
    CHECK(small.width == 3);
    CHECK(small.height == 2);
    CHECK(small.rgb[0] == 20);
    CHECK(small.rgb[1] == 10);
    CHECK(shrunk(picture, 6) == picture);
}
