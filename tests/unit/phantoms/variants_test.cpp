#include "variants.h"

#include "catch.h"

using namespace loafmark;
using namespace loafmark::phantoms;

namespace {

// Three by two pixels, each of its own grey.
Picture numbered() {
    Picture picture{3, 2, {}};
    for (std::uint8_t i = 1; i <= 6; ++i)
        picture.rgb.insert(picture.rgb.end(), {i, i, i});
    return picture;
}

std::vector<int> greys(const Picture& picture) {
    std::vector<int> values;
    for (std::size_t i = 0; i < picture.rgb.size(); i += 3)
        values.push_back(picture.rgb[i]);
    return values;
}

}  // namespace

// EXIF 2.32, Orientation: where the stored picture's first row and first column lie in the upright
// one: 2 top and right, 3 bottom and right, 4 bottom and left, 5 left and top, 6 right and top, 7
// right and bottom, 8 left and bottom.
TEST_CASE("pixels are stored as each EXIF orientation says") {
    const Picture upright = numbered();  // 1 2 3 / 4 5 6
    CHECK(greys(stored_as(upright, 1)) == std::vector{1, 2, 3, 4, 5, 6});
    CHECK(greys(stored_as(upright, 2)) == std::vector{3, 2, 1, 6, 5, 4});
    CHECK(greys(stored_as(upright, 3)) == std::vector{6, 5, 4, 3, 2, 1});
    CHECK(greys(stored_as(upright, 4)) == std::vector{4, 5, 6, 1, 2, 3});
    CHECK(greys(stored_as(upright, 5)) == std::vector{1, 4, 2, 5, 3, 6});
    CHECK(greys(stored_as(upright, 6)) == std::vector{3, 6, 2, 5, 1, 4});
    CHECK(greys(stored_as(upright, 7)) == std::vector{6, 3, 5, 2, 4, 1});
    CHECK(greys(stored_as(upright, 8)) == std::vector{4, 1, 5, 2, 6, 3});
    CHECK(stored_as(upright, 6).width == 2);
}

TEST_CASE("half the resolution is the mean of four pixels") {
    Picture picture{4, 2, std::vector<std::uint8_t>(24, 0)};
    picture.rgb[0] = 40;
    const Picture half = halved(picture);
    CHECK(half.width == 2);
    CHECK(half.height == 1);
    CHECK(half.rgb[0] == 10);
    CHECK(half.rgb[3] == 0);
}

TEST_CASE("a mirrored slice is the mirror image, seen through its own homography") {
    SlicePose pose{{60, 55}, 0.4, 15};
    const Camera camera = look_at({70, 40}, 0, 330, 0.1, 1.1, 0.2);
    const Homography plain = photo_from_slice(camera, pose);
    pose.mirrored = true;
    const Homography mirrored = photo_from_slice(camera, pose);
    const PhotoPoint a = project(plain, {-20, -30}), b = project(mirrored, {20, -30});
    CHECK(a.x == Approx(b.x));
    CHECK(a.y == Approx(b.y));
}
