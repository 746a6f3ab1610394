#include "target_plane.h"

#include <array>
#include <cmath>

#include "catch.h"
#include "geometry2d.h"
#include "target_photo.h"

namespace loafmark::analysis {
namespace {

const made::LaidTarget a4_mat{{0, 1, 2, 3}, {}, 1};
constexpr std::array<std::array<double, 2>, 5> places = {
    {{83, 126}, {30, 60}, {140, 200}, {20, 230}, {160, 40}}};

PaperPose pose_of(const SeenTarget& seen, const made::Camera& camera,
                  std::optional<double> focal_35mm, double print_scale = 1) {
    return paper_pose(seen, lens_of(focal_35mm, camera.photo), camera.photo, print_scale);
}

// The furthest that a photo point, taken back to the plane, lies from where it is, in mm.
double worst_place(const PaperPose& pose, const made::Camera& camera, double height_mm) {
    const cv::Matx33d plane_from_photo = photo_from_plane(pose, height_mm).inv();
    double worst = 0;
    for (const auto& [x, y] : places) {
        const double miss =
            cv::norm(mapped(plane_from_photo, camera.seen({x, y}, height_mm)) - cv::Point2d(x, y));
        REQUIRE(std::isfinite(miss));
        worst = std::max(worst, miss);
    }
    return worst;
}

// How far a length of 100 mm at that height is read from what it is, relatively.
double length_error(const PaperPose& pose, const made::Camera& camera, double height_mm) {
    const cv::Matx33d plane_from_photo = photo_from_plane(pose, height_mm).inv();
    const cv::Point2d a = mapped(plane_from_photo, camera.seen({33, 126}, height_mm));
    const cv::Point2d b = mapped(plane_from_photo, camera.seen({133, 126}, height_mm));
    return cv::norm(b - a) / 100 - 1;
}

made::Camera tilted(double tilt, double turn) {
    made::Camera camera;
    camera.tilt_deg = tilt;
    camera.turn_deg = turn;
    return camera;
}

TEST_CASE("EXIF's focal length is by the frame's diagonal") {
    const Lens lens = lens_of(26, {3000, 4000});
    CHECK(lens.focal_px == Approx(26 / 43.27 * 5000));
    CHECK(lens.from_exif);
    CHECK_FALSE(lens_of(std::nullopt, {3000, 4000}).from_exif);
}

TEST_CASE("from perfect corners the planes of paper and of cut face are exact") {
    for (const double tilt : {0.0, 10.0, 25.0})
        for (double turn = 0; turn < 360; turn += 20) {
            CAPTURE(tilt, turn);
            const made::Camera camera = tilted(tilt, turn);
            const PaperPose pose = pose_of(made::perfectly_seen(a4_mat, camera), camera, 26);
            CHECK(worst_place(pose, camera, 0) < 1e-3);
            CHECK(worst_place(pose, camera, 15) < 1e-3);
            CHECK(pose.tilt_deg == Approx(tilt).margin(0.01));
            CHECK(camera_height_mm(pose) ==
                  Approx(420 * std::cos(tilt * 3.14159265358979 / 180)).epsilon(1e-4));
            CHECK(pose.residual_px < 1e-3);
        }
}

TEST_CASE("in a photo with EXIF, places on paper and 15 mm above it are within 0.05 mm") {
    for (const double tilt : {5.0, 20.0}) {
        CAPTURE(tilt);
        const made::Camera camera = tilted(tilt, 15);
        const auto seen = find_target(made::photo_of({a4_mat}, camera));
        REQUIRE(seen);
        const PaperPose pose = pose_of(*seen, camera, 26);
        CHECK(worst_place(pose, camera, 0) < 0.05);
        CHECK(worst_place(pose, camera, 15) < 0.05);
    }
}

TEST_CASE("the camera's foot is the point of the paper square below it") {
    const made::Camera straight = tilted(0, 0);
    const PaperPose from_above = pose_of(made::perfectly_seen(a4_mat, straight), straight, 26);
    CHECK(cv::norm(camera_foot_mm(from_above) - cv::Point2d(83, 126)) < 0.05);
    // Tilted by a about the x axis, the camera stands 420 sin a beside what it looks at.
    const made::Camera aside = tilted(20, 0);
    const PaperPose pose = pose_of(made::perfectly_seen(a4_mat, aside), aside, 26);
    CHECK(std::abs(camera_foot_mm(pose).y - 126) ==
          Approx(420 * std::sin(20 * 3.14159265358979 / 180)).margin(0.05));
    CHECK(camera_foot_mm(pose).x == Approx(83).margin(0.05));
}

TEST_CASE("without EXIF a tilted view tells the focal length well enough for lengths") {
    made::Camera camera = tilted(25, 10);
    camera.focal_35mm = 30;
    const SeenTarget seen = made::perfectly_seen(a4_mat, camera);
    const PaperPose pose = pose_of(seen, camera, std::nullopt);
    // Drawn a little towards the usual 26 mm.
    CHECK(pose.lens.focal_px == Approx(camera.focal_px()).epsilon(0.05));
    CHECK(std::abs(length_error(pose, camera, 0)) < 0.003);
    CHECK(std::abs(length_error(pose, camera, 15)) < 0.004);
}

TEST_CASE("without EXIF a square view keeps a phone's usual focal length") {
    const made::Camera camera = tilted(0, 0);
    const PaperPose pose = pose_of(made::perfectly_seen(a4_mat, camera), camera, std::nullopt);
    CHECK(pose.lens.focal_px == Approx(camera.focal_px()).epsilon(1e-6));
    CHECK(std::abs(length_error(pose, camera, 15)) < 0.001);
}

TEST_CASE("two of four markers, or one, still give the plane") {
    const made::Camera camera = tilted(12, 0);
    for (const auto& ids : {std::vector{0, 2}, std::vector{0, 1}}) {
        const auto seen = find_target(made::photo_of({{ids, {}, 1}}, camera));
        REQUIRE(seen);
        const PaperPose pose = pose_of(*seen, camera, 26);
        CAPTURE(ids.back());
        CHECK(std::abs(length_error(pose, camera, 0)) < 0.005);
        CHECK(std::abs(length_error(pose, camera, 15)) < 0.005);
    }
    const auto one = find_target(made::photo_of({{{0}, {}, 1}}, camera));
    REQUIRE(one);
    // A single marker of 24 mm says little of the tilt; its own size is still right.
    const PaperPose pose = pose_of(*one, camera, 26);
    const cv::Matx33d paper_from_photo = photo_from_plane(pose, 0).inv();
    CHECK(cv::norm(mapped(paper_from_photo, camera.seen({12, 0})) -
                   mapped(paper_from_photo, camera.seen({-12, 0}))) == Approx(24).margin(0.15));
}

TEST_CASE("a print of 98.7 % is set right by what its ruler measures") {
    const made::Camera camera = tilted(10, 0);
    const made::LaidTarget shrunk{{0, 1, 2, 3}, {}, 0.987};
    const SeenTarget seen = made::perfectly_seen(shrunk, camera);
    const PaperPose checked = pose_of(seen, camera, 26, 0.987);
    CHECK(std::abs(length_error(checked, camera, 0)) < 1e-4);
    CHECK(std::abs(length_error(checked, camera, 15)) < 1e-4);
    const PaperPose believed = pose_of(seen, camera, 26);
    CHECK(length_error(believed, camera, 0) == Approx(1 / 0.987 - 1).epsilon(0.01));
}

TEST_CASE("a pixel's size is the mean of both directions at its place") {
    const cv::Matx33d stretched(5, 0, 0, 0, 20, 0, 0, 0, 1);  // pixels a mm
    CHECK(mm_per_pixel_at(stretched, {3, 4}) == Approx(0.1));
    const made::Camera camera = tilted(20, 0);
    const PaperPose pose = pose_of(made::perfectly_seen(a4_mat, camera), camera, 26);
    // Nearer to the camera a pixel spans less.
    const double far = mm_per_pixel_at(photo_from_plane(pose, 0), {83, 126});
    const double near = mm_per_pixel_at(photo_from_plane(pose, 15), {83, 126});
    CHECK(near < far);
    const double distance = 420 * std::cos(20 * 3.14159265358979 / 180);
    CHECK(near / far == Approx(1 - 15 / distance).epsilon(0.01));
}

TEST_CASE("fewer markers make lengths less sure, and the doubt covers the error made") {
    const made::Camera camera = tilted(12, 0);
    const auto error_with = [&](const std::vector<int>& ids) {
        const auto seen = find_target(made::photo_of({{ids, {}, 1}}, camera));
        REQUIRE(seen);
        const PaperPose pose = pose_of(*seen, camera, 26);
        const double sure = scale_error_from_corners(*seen, pose, 15, {83, 126}, 1);
        CHECK(std::abs(length_error(pose, camera, 15)) < 4 * sure);
        return sure;
    };
    const double four = error_with({0, 1, 2, 3}), two = error_with({0, 2}), one = error_with({0});
    CHECK(four < two);
    CHECK(two < one);
    CHECK(four < 0.002);
}

}  // namespace
}  // namespace loafmark::analysis
