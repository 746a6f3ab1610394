#include "frame.h"

#include <cmath>

#include <opencv2/imgproc.hpp>

#include "analysis/error.h"
#include "catch.h"
#include "made_bread.h"

namespace loafmark::analysis {
namespace {

// A view as of a tilted camera, 8 pixels a unit.
const cv::Matx33d photo_from_plane(8, 0.4, 120, -0.3, 8.5, 90, 0.0002, 0.0004, 1);

Frame frame_of_turned_loaf(double turn_deg, double unit_per_pixel) {
    const double a = turn_deg * CV_PI / 180;
    return frame_round(made::placed(made::dome(60, 40), {50, 60}, turn_deg),
                       {-std::sin(a), std::cos(a)}, 5, unit_per_pixel, photo_from_plane);
}

TEST_CASE("a frame holds the outline with its margin, base down, whichever way it lay") {
    for (const double turn : {0.0, 30.0, 90.0, 200.0}) {
        CAPTURE(turn);
        const Frame frame = frame_of_turned_loaf(turn, 0.1);
        CHECK(frame.size.width == Approx(700).margin(2));
        CHECK(frame.size.height == Approx(500).margin(2));
        const Polyline loaf = made::placed(made::dome(60, 40), {50, 60}, turn);
        const Polyline seen = mapped(frame.plane_from_frame.inv(), loaf);
        const Polyline upright = made::dome(60, 40);
        for (std::size_t i = 0; i < seen.size(); ++i)
            CHECK(cv::norm(seen[i] - (upright[i] * 10 + cv::Point2d(350, 450))) < 1.5);
    }
}

TEST_CASE("a point's way from frame to photo passes through the plane, and back") {
    const Frame frame = frame_of_turned_loaf(30, 0.1);
    for (const cv::Point2d p : {cv::Point2d(0, 0), {350, 200}, {699, 499}}) {
        const cv::Point2d in_photo = mapped(frame.photo_from_frame, p);
        CHECK(cv::norm(in_photo - mapped(photo_from_plane, mapped(frame.plane_from_frame, p))) <
              1e-9);
        CHECK(cv::norm(mapped(frame.photo_from_frame.inv(), in_photo) - p) < 1e-6);
    }
}

TEST_CASE("at another pixel size a frame's corners stay in place") {
    const Frame fine = frame_of_turned_loaf(30, 0.1);
    const Frame coarse = rescaled(fine, 0.25);
    CHECK(coarse.unit_per_pixel == 0.25);
    CHECK(coarse.size.width == 280);
    CHECK(coarse.size.height == 200);
    // The corner of the first pixel, and the corner 100 fine pixels to the right of it.
    for (const double at : {0.0, 100.0, 500.0}) {
        const cv::Point2d f(at - 0.5, at / 2 - 0.5), c(at * 0.4 - 0.5, at * 0.2 - 0.5);
        CHECK(cv::norm(mapped(fine.plane_from_frame, f) - mapped(coarse.plane_from_frame, c)) <
              1e-9);
        CHECK(cv::norm(mapped(fine.photo_from_frame, f) - mapped(coarse.photo_from_frame, c)) <
              1e-6);
    }
}

TEST_CASE("the rectified photo shows at each place what the photo shows there") {
    cv::Mat photo(800, 900, CV_8UC3);
    for (int y = 0; y < photo.rows; ++y)
        for (int x = 0; x < photo.cols; ++x)
            photo.at<cv::Vec3b>(y, x) = {static_cast<uchar>(x * 255 / 900),
                                         static_cast<uchar>(y * 255 / 800), 90};
    const Frame frame = frame_of_turned_loaf(30, 0.1);
    const cv::Mat seen = rectified(photo, frame);
    REQUIRE(seen.size() == frame.size);
    for (const cv::Point p : {cv::Point(350, 250), {200, 300}, {450, 150}}) {
        const cv::Point2d at = mapped(frame.photo_from_frame, p);
        REQUIRE(cv::Rect2d(1, 1, 898, 798).contains(at));
        CHECK(seen.at<cv::Vec3b>(p)[0] == Approx(at.x * 255 / 900).margin(1.5));
        CHECK(seen.at<cv::Vec3b>(p)[1] == Approx(at.y * 255 / 800).margin(1.5));
        CHECK(seen.at<cv::Vec3b>(p)[2] == 90);
    }
}

TEST_CASE("a photo finer than the frame is smoothed, and what lies beyond it is black") {
    cv::Mat stripes(400, 400, CV_8UC3, cv::Scalar::all(0));
    for (int x = 0; x < 400; x += 2)
        stripes.col(x).setTo(cv::Scalar::all(200));
    const Polyline square = {{10, 10}, {30, 10}, {30, 30}, {10, 30}};
    const Frame frame = frame_round(square, {0, 1}, 20, 0.25, {20, 0, 0, 0, 20, 0, 0, 0, 1});
    const cv::Mat seen = rectified(stripes, frame);
    CHECK(seen.at<cv::Vec3b>(80, 80)[0] == Approx(100).margin(15));
    CHECK(seen.at<cv::Vec3b>(81, 83)[0] == Approx(100).margin(15));
    CHECK(seen.at<cv::Vec3b>(seen.rows - 1, seen.cols - 1) == cv::Vec3b(0, 0, 0));
}

TEST_CASE("the photo shows the frame's pixels whose places lie in it") {
    const Polyline square = {{10, 10}, {30, 10}, {30, 30}, {10, 30}};
    const cv::Matx33d leaning(4, 0.3, 5, -0.2, 5, 8, 1e-4, 2e-4, 1);
    const Frame frame = frame_round(square, {0, 1}, 5, 0.25, leaning);
    const cv::Mat all = shown_by({400, 400}, frame);
    CHECK(cv::countNonZero(all == 1) == frame.size.area());
    const cv::Size cut(100, 90);
    const cv::Mat some = shown_by(cut, frame);
    int wrong = 0, shown = 0;
    for (int y = 0; y < some.rows; ++y)
        for (int x = 0; x < some.cols; ++x) {
            const cv::Point2d at = mapped(frame.photo_from_frame, cv::Point2d(x, y));
            const auto by = [&](double margin) {
                return at.x > margin && at.y > margin && at.x < cut.width - 1 - margin &&
                       at.y < cut.height - 1 - margin;
            };
            shown += some.at<uchar>(y, x);
            if (by(0.6) && some.at<uchar>(y, x) != 1) ++wrong;
            if (!by(-0.6) && some.at<uchar>(y, x) != 0) ++wrong;
        }
    CHECK(wrong == 0);
    CHECK(shown > 1000);
    CHECK(shown < frame.size.area() - 1000);
}

TEST_CASE("a frame beyond 40 megapixels is refused with what to check") {
    const Polyline huge = {{0, 0}, {1000, 0}, {1000, 700}, {0, 700}};
    try {
        (void)frame_round(huge, {0, 1}, 5, 0.1, cv::Matx33d::eye());
        FAIL("accepted");
    } catch (const Error& error) {
        CHECK(std::string(error.remedy()).find("100 %") != std::string::npos);
    }
}

}  // namespace
}  // namespace loafmark::analysis
