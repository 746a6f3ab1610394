#include "face_parts.h"

#include <opencv2/imgproc.hpp>

#include "catch.h"

namespace loafmark::analysis {
namespace {

cv::Mat empty_map() {
    return cv::Mat::zeros(200, 300, CV_32F);
}

TEST_CASE("each solid piece of a face map is a part, the largest first") {
    cv::Mat map = empty_map();
    cv::circle(map, {60, 100}, 30, cv::Scalar(0.9), cv::FILLED);
    cv::circle(map, {200, 100}, 60, cv::Scalar(0.8), cv::FILLED);
    const std::vector<cv::Mat> parts = face_parts(map, 15);
    REQUIRE(parts.size() == 2);
    CHECK(parts[0].at<uchar>(100, 200) == 255);
    CHECK(parts[1].at<uchar>(100, 60) == 255);
}

TEST_CASE("what is less likely than not, or too small, is no part") {
    cv::Mat map = empty_map();
    cv::circle(map, {60, 100}, 30, cv::Scalar(0.45), cv::FILLED);
    cv::circle(map, {200, 100}, 12, cv::Scalar(1), cv::FILLED);
    CHECK(face_parts(map, 15).empty());
}

TEST_CASE("holes belong to a part, thin arms do not") {
    cv::Mat map = empty_map();
    cv::circle(map, {100, 100}, 50, cv::Scalar(1), cv::FILLED);
    cv::circle(map, {100, 100}, 20, cv::Scalar(0), cv::FILLED);
    cv::rectangle(map, {140, 98}, {250, 102}, cv::Scalar(1), cv::FILLED);
    const std::vector<cv::Mat> parts = face_parts(map, 20);
    REQUIRE(parts.size() == 1);
    CHECK(parts[0].at<uchar>(100, 100) == 255);
    CHECK(parts[0].at<uchar>(100, 220) == 0);
}

TEST_CASE("a part that the picture's border cuts counts by what lies beyond") {
    cv::Mat map = empty_map();
    // Twelve rows of a large face are in the picture.
    map.rowRange(0, 12).setTo(1);
    CHECK(face_parts(map, 10).size() == 1);
}

TEST_CASE("an outline passes between pixels, where the map passes one half") {
    // A soft disc: 0.5 at 50.3 pixels from its middle.
    cv::Mat map(200, 200, CV_32F);
    for (int y = 0; y < map.rows; ++y)
        for (int x = 0; x < map.cols; ++x)
            map.at<float>(y, x) =
                static_cast<float>(1 / (1 + std::exp(std::hypot(x - 100.2, y - 99.6) - 50.3)));
    const std::vector<cv::Mat> parts = face_parts(map, 20);
    REQUIRE(parts.size() == 1);
    const Polyline outline = part_outline(map, parts[0]);
    CHECK(area_inside(outline) == Approx(CV_PI * 50.3 * 50.3).epsilon(0.01));
    for (const cv::Point2d& p : outline)
        CHECK(cv::norm(p - cv::Point2d(100.2, 99.6)) == Approx(50.3).margin(0.35));
}

}  // namespace
}  // namespace loafmark::analysis
