#include "morphology.h"

#include <numbers>

#include <opencv2/imgproc.hpp>

#include "catch.h"

namespace loafmark::analysis {
namespace {

cv::Mat disc(double radius, cv::Size size = {200, 200}) {
    cv::Mat mask = cv::Mat::zeros(size, CV_8U);
    cv::circle(mask, {size.width / 2, size.height / 2}, static_cast<int>(radius), 1, cv::FILLED);
    return mask;
}

double disc_area(double radius) {
    return std::numbers::pi * radius * radius;
}

TEST_CASE("a disc eroded or dilated is a disc that much smaller or larger") {
    CHECK(cv::countNonZero(eroded(disc(50), 15)) == Approx(disc_area(35)).epsilon(0.04));
    CHECK(cv::countNonZero(dilated(disc(50), 15)) == Approx(disc_area(65)).epsilon(0.04));
    double most = 0;
    cv::minMaxLoc(dilated(disc(50), 15), nullptr, &most);
    CHECK(most == 255);
}

TEST_CASE("opening takes a thin handle away and leaves the disc") {
    cv::Mat pan = disc(40);
    cv::rectangle(pan, {100, 97}, {195, 103}, 1, cv::FILLED);
    const cv::Mat without = opened(pan, 8);
    CHECK(without.at<uchar>(100, 180) == 0);
    CHECK(cv::countNonZero(without) == Approx(disc_area(40)).epsilon(0.03));
}

TEST_CASE("closing fills a narrow gap and moves nothing else") {
    cv::Mat halves = disc(60);
    halves.colRange(98, 103).setTo(0);
    const cv::Mat whole = closed(halves, 6);
    CHECK(whole.at<uchar>(100, 100) == 255);
    CHECK(cv::countNonZero(whole) == Approx(disc_area(60)).epsilon(0.03));
    cv::Mat apart = disc(60);
    apart.colRange(80, 121).setTo(0);
    CHECK(closed(apart, 6).at<uchar>(100, 100) == 0);
}

TEST_CASE("outside the picture counts as unset, yet closing keeps what touches the border") {
    const cv::Mat full(60, 80, CV_8U, cv::Scalar(1));
    CHECK(cv::countNonZero(eroded(full, 10)) == 60 * 40);
    CHECK(cv::countNonZero(closed(full, 10)) == 60 * 80);
}

TEST_CASE("nothing stays nothing") {
    const cv::Mat none = cv::Mat::zeros(50, 50, CV_8U);
    CHECK(cv::countNonZero(eroded(none, 3)) == 0);
    CHECK(cv::countNonZero(dilated(none, 3)) == 0);
    CHECK(cv::countNonZero(opened(none, 3)) == 0);
    CHECK(cv::countNonZero(closed(none, 3)) == 0);
}

}  // namespace
}  // namespace loafmark::analysis
