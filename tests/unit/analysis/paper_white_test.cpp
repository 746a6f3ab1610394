#include "paper_white.h"

#include <cstdlib>

#include "catch.h"

namespace loafmark::analysis {
namespace {

// One marker, 60 pixels wide, on paper of this colour.
std::optional<cv::Vec3d> white_of(const cv::Scalar& paper) {
    cv::Mat photo(200, 200, CV_8UC3, paper);
    photo(cv::Rect(70, 70, 60, 60)).setTo(cv::Scalar(20, 20, 20));
    SeenTarget target;
    target.markers.push_back({0, {cv::Point2d(70, 70), {130, 70}, {130, 130}, {70, 130}}});
    return paper_white(photo, target);
}

TEST_CASE("the white round the markers is the photo's white, in linear light") {
    const auto white = white_of({188, 188, 137});
    REQUIRE(white);
    // IEC 61966-2-1: 188 of 255 is half of full light, 137 a quarter.
    CHECK((*white)[0] == Approx(0.5).margin(0.01));
    CHECK((*white)[2] == Approx(0.25).margin(0.01));
}

TEST_CASE("over-exposed paper tells no colour") {
    CHECK_FALSE(white_of({255, 255, 240}));
}

TEST_CASE("balanced on its own white, paper is neutral and equally bright in every photo") {
    for (const cv::Scalar& paper : {cv::Scalar(188, 188, 137), cv::Scalar(90, 120, 110)}) {
        const cv::Mat photo(4, 4, CV_8UC3, paper);
        const auto white = white_of(paper);
        REQUIRE(white);
        const cv::Vec3b seen = balanced_on(photo, *white).at<cv::Vec3b>(1, 1);
        // IEC 61966-2-1: 0.86 of full light is 238 of 255.
        for (int k = 0; k < 3; ++k)
            CHECK(std::abs(seen[k] - 238) <= 1);
    }
}

}  // namespace
}  // namespace loafmark::analysis
