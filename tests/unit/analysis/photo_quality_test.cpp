#include "photo_quality.h"

#include <opencv2/imgproc.hpp>

#include "catch.h"
#include "made_bread.h"
#include "target_photo.h"

namespace loafmark::analysis {
namespace {

const made::LaidTarget a4_mat{{0, 1, 2, 3}, {}, 1};

// A marker's module is 15 pixels wide.
const made::Camera camera = [] {
    made::Camera near;
    near.photo = {1600, 2000};
    return near;
}();

cv::Mat in_colour(const cv::Mat& grey) {
    cv::Mat rgb;
    cv::cvtColor(grey, rgb, cv::COLOR_GRAY2RGB);
    return rgb;
}

std::vector<WarningCode> codes_of(const std::vector<Warning>& warnings) {
    std::vector<WarningCode> codes;
    for (const Warning& warning : warnings)
        codes.push_back(warning.code);
    return codes;
}

std::vector<WarningCode> light_of(const cv::Mat& grey) {
    return codes_of(light_on(made::perfectly_seen(a4_mat, camera), in_colour(grey)));
}

using Codes = std::vector<WarningCode>;

TEST_CASE("even light on a matt mat is not remarked upon") {
    CHECK(light_of(made::photo_of({a4_mat}, camera)).empty());
}

TEST_CASE("a lamp mirrored in one marker is glare") {
    cv::Mat photo = made::photo_of({a4_mat}, camera);
    cv::circle(photo, camera.seen({166, 0}), 44, cv::Scalar(250), cv::FILLED);
    CHECK(light_of(photo) == Codes{WarningCode::glare});
}

TEST_CASE("light that falls off to a fifth across the mat is uneven") {
    cv::Mat photo = made::photo_of({a4_mat}, camera);
    for (int y = 0; y < photo.rows; ++y)
        photo.row(y) *= 1 - 0.75 * y / photo.rows;
    CHECK(light_of(photo) == Codes{WarningCode::uneven_light});
}

TEST_CASE("the edge spread is that of the blur, in whichever direction it goes") {
    const cv::Mat sharp = made::photo_of({a4_mat}, camera);
    const SeenTarget target = made::perfectly_seen(a4_mat, camera);
    const auto spread = edge_spread_px(target, sharp);
    REQUIRE(spread);
    CHECK(*spread < 2);
    cv::Mat blurred;
    cv::GaussianBlur(sharp, blurred, {}, 3);
    // A Gaussian's 10 to 90 % are 2.56 sigma.
    CHECK(*edge_spread_px(target, blurred) == Approx(2.56 * 3).epsilon(0.12));
    cv::Mat shaken;
    cv::blur(sharp, shaken, {13, 1});
    // Of a box of 13 pixels, eight tenths.
    CHECK(*edge_spread_px(target, shaken) == Approx(0.8 * 13).epsilon(0.15));
}

struct MadeSlice {
    made::Bread bread = made::bread_of(made::placed(made::tin_loaf(60, 50), {65, 90}));
    made::Table table{{800, 640}, 6, {62, 96, 156}, 1.5};
    cv::Mat rgb = made::photo_of_bread(table, {bread});
    Polyline outline = mapped(made::photo_from_mm(table), bread.outline);

    [[nodiscard]] SliceQuality quality(std::optional<double> edge_spread = {}) const {
        return quality_of({rgb, outline, 0.67, 1 / 6.0, edge_spread});
    }
};

TEST_CASE("a well lit, sharp slice is not remarked upon") {
    CHECK(MadeSlice().quality().warnings.empty());
    CHECK(MadeSlice().quality(0.4).warnings.empty());
}

TEST_CASE("a slice that is white in places is overexposed, a nearly black one underexposed") {
    MadeSlice bright;
    bright.rgb *= 1.6;
    CHECK(codes_of(bright.quality().warnings) == Codes{WarningCode::overexposed});
    MadeSlice dark;
    dark.rgb *= 0.2;
    CHECK(codes_of(dark.quality().warnings) == Codes{WarningCode::underexposed});
}

TEST_CASE("edges wider than the smallest cell are told, and twice as wide end its cells") {
    const SliceQuality soft = MadeSlice().quality(0.9);
    CHECK(codes_of(soft.warnings) == Codes{WarningCode::blurred});
    CHECK_FALSE(soft.crumb_hopeless);
    CHECK(MadeSlice().quality(1.5).crumb_hopeless);
}

TEST_CASE("a mirrored mat explains why there is no target, an empty photo does not") {
    cv::Mat photo;
    cv::flip(made::photo_of({a4_mat}, camera), photo, 1);
    CHECK(codes_of(why_no_target(photo)) == Codes{WarningCode::target_mirrored});
    CHECK(why_no_target(cv::Mat(600, 800, CV_8U, cv::Scalar(200))).empty());
}

}  // namespace
}  // namespace loafmark::analysis
