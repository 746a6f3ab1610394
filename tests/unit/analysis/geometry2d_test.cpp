#include "geometry2d.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <opencv2/core.hpp>

#include "catch.h"

namespace loafmark::analysis {
namespace {

Polyline circle(double radius, int points, cv::Point2d centre = {0, 0}) {
    Polyline line;
    for (int i = 0; i < points; ++i) {
        const double a = 2 * std::numbers::pi * i / points;
        line.push_back(centre + radius * cv::Point2d(std::cos(a), std::sin(a)));
    }
    return line;
}

const Polyline rectangle = {{10, 10}, {30, 10}, {30, 20}, {10, 20}};

TEST_CASE("a homography maps a point by its quotient") {
    const cv::Matx33d h(2, 0, 1, 0, 3, -1, 0.1, 0, 1);
    CHECK(mapped(h, cv::Point2d(10, 4)).x == Approx(21 / 2.0));
    CHECK(mapped(h, cv::Point2d(10, 4)).y == Approx(11 / 2.0));
    const Polyline back = mapped(h.inv(), mapped(h, rectangle));
    for (std::size_t i = 0; i < rectangle.size(); ++i)
        CHECK(cv::norm(back[i] - rectangle[i]) < 1e-9);
}

TEST_CASE("area and length of a closed line do not depend on its direction") {
    const Polyline backwards(rectangle.rbegin(), rectangle.rend());
    CHECK(area_inside(rectangle) == Approx(200));
    CHECK(area_inside(backwards) == Approx(200));
    CHECK(length_of(rectangle) == Approx(60));
    CHECK(length_of(backwards) == Approx(60));
}

TEST_CASE("a resampled line has evenly spaced points on the old line, corner repeated or not") {
    Polyline doubled = rectangle;
    doubled.insert(doubled.begin(), rectangle.front());
    doubled.push_back(rectangle.front());
    for (const Polyline& line : {rectangle, doubled}) {
        const Polyline even = resampled(line, 0.5);
        REQUIRE(even.size() == 120);
        CHECK(area_inside(even) == Approx(200));
        for (std::size_t i = 0; i < even.size(); ++i)
            CHECK(cv::norm(even[(i + 1) % even.size()] - even[i]) == Approx(0.5));
    }
}

TEST_CASE("a line resampled too coarsely keeps three points") {
    CHECK(resampled(rectangle, 1000).size() == 3);
}

TEST_CASE("smoothing shrinks a circle by the Gaussian's value at its frequency") {
    // A convolution with a Gaussian multiplies the frequency 2 pi / n by exp(-(2 pi sigma / n)^2
    // / 2).
    constexpr int n = 120;
    constexpr double sigma = 6;
    const double expected = std::exp(-0.5 * std::pow(2 * std::numbers::pi * sigma / n, 2));
    for (const cv::Point2d& p : smoothed(circle(50, n), sigma))
        CHECK(cv::norm(p) == Approx(50 * expected).epsilon(0.003));
}

TEST_CASE("normals point outwards whichever way the line runs") {
    const Polyline line = circle(20, 90, {5, -3});
    const Polyline backwards(line.rbegin(), line.rend());
    for (const Polyline& way : {line, backwards}) {
        const Polyline normals = outward_normals(way);
        for (std::size_t i = 0; i < way.size(); ++i)
            CHECK(cv::norm(normals[i] - (way[i] - cv::Point2d(5, -3)) / 20) < 1e-6);
    }
}

TEST_CASE("a filled line covers the pixels whose centres it encloses") {
    const cv::Mat mask = filled(rectangle, {50, 40});
    CHECK(cv::countNonZero(mask) == 21 * 11);  // its border's pixels included
    CHECK(mask.at<uchar>(10, 10) == 1);
    CHECK(mask.at<uchar>(9, 20) == 0);
    const cv::Mat disc = filled(circle(150.3, 1000, {200.4, 200.2}), {400, 400});
    CHECK(cv::countNonZero(disc) == Approx(std::numbers::pi * 150.3 * 150.3).epsilon(0.008));
    // What lies beyond the picture is left out.
    CHECK(cv::countNonZero(filled({{-10, -10}, {4, -10}, {4, 4}, {-10, 4}}, {20, 20})) == 25);
}

}  // namespace
}  // namespace loafmark::analysis
