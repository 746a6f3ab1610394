#include "shrunk.h"

#include <opencv2/imgproc.hpp>

#include "catch.h"

namespace loafmark::analysis {
namespace {

cv::Mat noise(cv::Size size, int type) {
    cv::Mat picture(size, type);
    cv::RNG random(7);
    random.fill(picture, cv::RNG::UNIFORM, 0, 256);
    return picture;
}

TEST_CASE("a picture made smaller is what OpenCV makes of it, to the last step of a few values") {
    for (const int type : {CV_8UC1, CV_8UC3})
        for (const cv::Size size : {cv::Size(1009, 757), cv::Size(640, 1200)})
            for (const double by : {0.97, 0.6, 0.5, 0.3472222222222222, 0.127, 0.00403, 0.003}) {
                const cv::Mat picture = noise(size, type);
                cv::Mat expected, difference;
                cv::resize(picture, expected, {}, by, by, cv::INTER_AREA);
                const cv::Mat small = shrunk(picture, by);
                REQUIRE(small.size() == expected.size());
                REQUIRE(small.type() == type);
                cv::absdiff(small, expected, difference);
                difference = difference.reshape(1);
                double most = 0;
                cv::minMaxLoc(difference, nullptr, &most);
                CHECK(most <= 1);
                CHECK(1000 * cv::countNonZero(difference) <= static_cast<int>(difference.total()));
            }
}

TEST_CASE("white stays white, however much smaller it is made") {
    const cv::Mat white(1009, 757, CV_8UC3, cv::Scalar::all(255));
    for (const double by : {0.6, 0.127, 0.00403})
        CHECK(cv::countNonZero(shrunk(white, by).reshape(1) != 255) == 0);
}

TEST_CASE("a part of a picture is made smaller without what lies round it") {
    const cv::Mat picture = noise({400, 300}, CV_8UC3);
    const cv::Mat part = picture(cv::Rect(50, 40, 211, 173));
    CHECK(cv::norm(shrunk(part, 0.31), shrunk(part.clone(), 0.31), cv::NORM_INF) == 0);
}

}  // namespace
}  // namespace loafmark::analysis
