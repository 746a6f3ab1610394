#include "side_wall.h"

#include <cmath>

#include "catch.h"
#include "contours.h"
#include "made_bread.h"

namespace loafmark::analysis {
namespace {

// A face of 80 x 60 mm, its middle at the origin; the frame is the plane at 10 pixels a millimetre.
const cv::Matx33d frame_from_plane(10, 0, 0, 0, 10, 0, 0, 0, 1);
constexpr double distance_mm = 300, depth_mm = 15;

Polyline face() {
    return mapped(frame_from_plane, resampled({{-40, -30}, {40, -30}, {40, 30}, {-40, 30}}, 0.5));
}

bool away_from_corners(cv::Point2d p) {
    return std::abs(p.x) < 300 || std::abs(p.y) < 200;
}

TEST_CASE("without a viewpoint nothing changes") {
    const CutFace same = without_side(face(), std::nullopt, frame_from_plane);
    CHECK(same.outline == face());
    CHECK(same.widest_side == 0);
}

TEST_CASE("from a camera above the slice no side is seen") {
    for (const cv::Point2d foot : {cv::Point2d(0, 0), {20, -10}}) {
        const CutFace same =
            without_side(face(), Viewpoint{foot, distance_mm, depth_mm}, frame_from_plane);
        CHECK(same.outline == face());
        CHECK(same.widest_side == 0);
    }
}

TEST_CASE("from a camera beside the slice the side facing it is taken off, and no other") {
    // The edge at 40 mm is seen as the lower edge of the side, 100 mm from the foot: it lies
    // 100 * 15 / 300 = 5 mm too near to it.
    const Viewpoint beside{{140, 0}, distance_mm, depth_mm};
    const CutFace cut = without_side(face(), beside, frame_from_plane);
    REQUIRE(cut.outline.size() == face().size());
    CHECK(cut.widest_side == Approx(50).epsilon(0.02));
    for (std::size_t i = 0; i < cut.outline.size(); ++i) {
        const cv::Point2d before = face()[i], after = cut.outline[i];
        if (!away_from_corners(before)) continue;
        if (before.x > 399)
            CHECK(after.x == Approx(350).margin(1e-6));
        else
            CHECK(after == before);
    }
}

TEST_CASE("the face of a slice whose side is in sight is found from what the camera sees") {
    // The silhouette: each point is seen where its lower edge is, where that is further out.
    const cv::Point2d foot(150, 110);
    const Polyline true_face = made::dome(100, 70);
    const cv::Point2d foot_px = mapped(frame_from_plane, foot);
    const Polyline normals = outward_normals(smoothed(true_face, 10));
    Polyline seen;
    for (std::size_t i = 0; i < true_face.size(); ++i) {
        const cv::Point2d lower =
            foot + distance_mm / (distance_mm + depth_mm) * (true_face[i] - foot);
        seen.push_back((foot - true_face[i]).dot(normals[i]) > 0 ? lower : true_face[i]);
    }
    const Polyline in_frame = mapped(frame_from_plane, seen);
    const CutFace cut =
        without_side(in_frame, Viewpoint{foot, distance_mm, depth_mm}, frame_from_plane);
    const Polyline expected = mapped(frame_from_plane, true_face);
    CHECK(area_inside(in_frame) > 1.05 * area_inside(expected));
    CHECK(area_inside(cut.outline) == Approx(area_inside(expected)).epsilon(0.005));
    CHECK(cut.widest_side > 0);
    CHECK(cut.widest_side <= cv::norm(foot_px - mapped(frame_from_plane, {-50, -70})) * 0.05 + 1);
}

TEST_CASE("a face with its side, and the side taken off again, is the face") {
    // In a frame that holds it: its middle 70 mm from the corner, the camera's foot 100 mm to the
    // right.
    const cv::Matx33d frame(10, 0, 700, 0, 10, 500, 0, 0, 1);
    const Viewpoint view{{100, 0}, distance_mm, depth_mm};
    const Polyline true_face =
        mapped(frame, resampled({{-40, -30}, {40, -30}, {40, 30}, {-40, 30}}, 0.5));
    cv::Mat map;
    filled(true_face, {1400, 1000}).convertTo(map, CV_32F);
    const cv::Mat bread = with_side(map, view, frame);
    // The side facing the camera: 60 * 15 / 315 mm wide at 40 mm, nothing on the far side.
    CHECK(bread.at<float>(500, 700 + 400 + 25) > 0.5);
    CHECK(bread.at<float>(500, 700 + 400 + 32) < 0.5);
    CHECK(bread.at<float>(500, 700 - 400 - 3) < 0.5);
    Polyline seen;
    for (const cv::Point& p : largest_contour(bread > 0.5))
        seen.emplace_back(p);
    const CutFace again = without_side(seen, view, frame);
    CHECK(area_inside(again.outline) == Approx(area_inside(true_face)).epsilon(0.01));
}

TEST_CASE("a mask with its side is where a map of it has more than one half") {
    const cv::Matx33d frame(9.7, 0.3, 611, -0.3, 9.7, 431, 0, 0, 1);
    const Viewpoint view{{87, 31}, distance_mm, depth_mm};
    const cv::Mat mask = filled(
        mapped(frame, resampled({{-40, -30}, {33, -21}, {40, 30}, {-31, 27}}, 0.5)), {1200, 900});
    cv::Mat map;
    mask.convertTo(map, CV_32F);
    const cv::Mat expected = with_side(map, view, frame) > 0.5;
    CHECK(cv::countNonZero(expected) > cv::countNonZero(mask) + 1000);
    // Builds of OpenCV may round a pixel of the edge differently.
    CHECK(cv::countNonZero(mask_with_side(mask, view, frame) != expected) <= 5);
}

}  // namespace
}  // namespace loafmark::analysis
