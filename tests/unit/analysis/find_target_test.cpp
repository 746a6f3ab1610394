#include "find_target.h"

#include <algorithm>

#include <opencv2/imgproc.hpp>

#include "catch.h"
#include "target_photo.h"

namespace loafmark::analysis {
namespace {

const made::LaidTarget a4_mat{{0, 1, 2, 3}, {}, 1};
const made::LaidTarget strip{{8, 9}, {}, 1};

std::vector<int> ids_of(const SeenTarget& target) {
    std::vector<int> ids;
    for (const SeenMarker& marker : target.markers)
        ids.push_back(marker.id);
    std::sort(ids.begin(), ids.end());
    return ids;
}

// The furthest that a found corner lies from where it is, in pixels.
double worst_corner(const SeenTarget& found, const made::LaidTarget& laid,
                    const made::Camera& camera) {
    double worst = 0;
    for (const SeenMarker& marker : found.markers) {
        const auto truth = made::true_corners(marker.id, laid, camera);
        for (std::size_t i = 0; i < 4; ++i)
            worst = std::max(worst, cv::norm(marker.corners[i] - truth[i]));
    }
    return worst;
}

TEST_CASE("a mat's four markers are found, their corners within 0.3 pixels") {
    for (const auto& [tilt, turn] :
         std::vector<std::array<double, 2>>{{0, 0}, {12, 33}, {25, 90}, {25, 180}, {0, 300}}) {
        made::Camera camera;
        camera.photo = {900, 900};
        camera.tilt_deg = tilt;
        camera.turn_deg = turn;
        INFO("tilt " << tilt << ", turn " << turn);
        const auto found = find_target(made::photo_of({a4_mat}, camera));
        REQUIRE(found);
        CHECK(found->kind == TargetKind::a4_mat);
        CHECK(ids_of(*found) == std::vector{0, 1, 2, 3});
        CHECK_FALSE(found->others_seen);
        CHECK(worst_corner(*found, a4_mat, camera) < 0.3);
    }
}

TEST_CASE("corners are as true on a photo that is searched reduced") {
    made::Camera camera;
    camera.photo = {1300, 1700};
    camera.tilt_deg = 10;
    const auto found = find_target(made::photo_of({a4_mat}, camera));
    REQUIRE(found);
    CHECK(ids_of(*found) == std::vector{0, 1, 2, 3});
    CHECK(worst_corner(*found, a4_mat, camera) < 0.3);
}

TEST_CASE("a soft photo draws markers no smaller") {
    made::Camera camera;
    camera.tilt_deg = 5;
    const cv::Mat sharp = made::photo_of({a4_mat}, camera);
    for (const double sigma_px : {0.5, 1.0, 1.5}) {
        CAPTURE(sigma_px);
        const auto found = find_target(made::out_of_focus(sharp, sigma_px));
        REQUIRE(found);
        SeenTarget truth = *found;
        for (SeenMarker& marker : truth.markers)
            marker.corners = made::true_corners(marker.id, a4_mat, camera);
        CHECK(marker_side_px(*found) == Approx(marker_side_px(truth)).margin(0.15));
        CHECK(worst_corner(*found, a4_mat, camera) < 0.3);
    }
}

TEST_CASE("noise and blur as of a phone leave the corners within 0.3 pixels") {
    made::Camera camera;
    camera.photo = {1040,
                    1300};  // blurred by light, one of 42 pixels is not seen by OpenCV's finder
    camera.tilt_deg = 8;
    cv::Mat photo = made::out_of_focus(made::photo_of({a4_mat}, camera), 1);
    cv::Mat noise(photo.size(), CV_16S);
    cv::RNG(3).fill(noise, cv::RNG::NORMAL, 0, 4);
    cv::add(photo, noise, photo, cv::noArray(), CV_8U);
    const auto found = find_target(photo);
    REQUIRE(found);
    CHECK(found->markers.size() == 4);
    CHECK(worst_corner(*found, a4_mat, camera) < 0.3);
}

TEST_CASE("a strip is told from a mat by its markers") {
    made::Camera camera;
    camera.photo = {900, 500};
    camera.foot_mm = {70, 0};
    const auto found = find_target(made::photo_of({strip}, camera));
    REQUIRE(found);
    CHECK(found->kind == TargetKind::strip);
    CHECK(ids_of(*found) == std::vector{8, 9});
    CHECK(worst_corner(*found, strip, camera) < 0.3);
}

TEST_CASE("markers that something covers are missing, no more") {
    const made::Camera camera;
    const auto two = find_target(made::photo_of({{{1, 3}, {}, 1}}, camera));
    REQUIRE(two);
    CHECK(ids_of(*two) == std::vector{1, 3});
    const auto one = find_target(made::photo_of({{{2}, {}, 1}}, camera));
    REQUIRE(one);
    CHECK(ids_of(*one) == std::vector{2});
    CHECK(worst_corner(*one, a4_mat, camera) < 0.3);
}

TEST_CASE("of two targets the one with more markers is taken, and that there were two is told") {
    made::Camera camera;
    camera.height_mm = 480;
    const auto found = find_target(made::photo_of({a4_mat, {{8, 9}, {10, 120}, 1}}, camera));
    REQUIRE(found);
    CHECK(found->kind == TargetKind::a4_mat);
    CHECK(found->markers.size() == 4);
    CHECK(found->others_seen);
}

TEST_CASE("a marker seen twice is used once, and that there were two is told") {
    made::Camera camera;
    const auto found = find_target(made::photo_of({a4_mat, {{0}, {80, 100}, 1}}, camera));
    REQUIRE(found);
    CHECK(ids_of(*found) == std::vector{0, 1, 2, 3});
    CHECK(found->others_seen);
}

TEST_CASE("of two mats of one kind, markers of one sheet are taken, never some of each") {
    made::Camera camera;
    camera.photo = {1400, 1000};
    camera.height_mm = 620;
    camera.foot_mm = {190, 126};
    camera.tilt_deg = 8;
    const made::LaidTarget other{{0, 1, 2, 3}, {215, 4}, 1};
    const auto found = find_target(made::photo_of({a4_mat, other}, camera));
    REQUIRE(found);
    CHECK(ids_of(*found) == std::vector{0, 1, 2, 3});
    CHECK(found->others_seen);
    CHECK(std::min(worst_corner(*found, a4_mat, camera), worst_corner(*found, other, camera)) <
          0.4);
}

TEST_CASE("a marker that is turned over on its sheet is left out") {
    const made::Camera camera;
    // Marker 3 cut out and pasted in upside down.
    cv::Mat photo = made::photo_of({a4_mat}, camera);
    const auto corners = made::true_corners(3, a4_mat, camera);
    const cv::Point rim(4, 4);
    const cv::Rect place{cv::Point(corners[0]) - rim, cv::Point(corners[2]) + rim};
    cv::rotate(photo(place).clone(), photo(place), cv::ROTATE_180);
    const auto found = find_target(photo);
    REQUIRE(found);
    CHECK(ids_of(*found) == std::vector{0, 1, 2});
    CHECK(found->others_seen);
}

TEST_CASE("a slice over a marker hides that marker and no more") {
    const made::Camera camera;
    cv::Mat photo = made::photo_of({a4_mat}, camera);
    cv::ellipse(photo, camera.seen({150, 20}), {90, 70}, 0, 0, 360, cv::Scalar(170), cv::FILLED);
    const auto found = find_target(photo);
    REQUIRE(found);
    CHECK(ids_of(*found) == std::vector{0, 2, 3});
    CHECK(worst_corner(*found, a4_mat, camera) < 0.3);
    CHECK_FALSE(found->others_seen);
}

TEST_CASE("a mirrored mat gives no marker, and is known for what it is") {
    const made::Camera camera;
    for (const auto& ids : {std::vector{0, 1, 2, 3}, std::vector{4, 5, 6, 7}}) {
        cv::Mat photo;
        cv::flip(made::photo_of({{ids, {}, 1}}, camera), photo, 1);
        CHECK_FALSE(find_target(photo));
        CHECK(seen_mirrored(photo));
    }
    CHECK_FALSE(seen_mirrored(cv::Mat(600, 800, CV_8U, cv::Scalar(200))));
}

// The patterns of 8 and 9 are their own mirror images; where they lie is not.
TEST_CASE("a mirrored strip is never taken for a whole one, and its marker keeps its size") {
    made::Camera camera;
    camera.photo = {900, 500};
    camera.foot_mm = {70, 0};
    cv::Mat photo;
    cv::flip(made::photo_of({strip}, camera), photo, 1);
    const auto found = find_target(photo);
    REQUIRE(found);
    CHECK(found->markers.size() == 1);
    CHECK(found->others_seen);
    const double side = camera.focal_px() / camera.height_mm * marker_side_mm;
    CHECK(marker_side_px(*found) == Approx(side).epsilon(0.01));
}

TEST_CASE("a pane of glass that greys the mat leaves its corners where they are") {
    made::Camera camera;
    camera.tilt_deg = 8;
    cv::Mat photo = made::photo_of({a4_mat}, camera);
    photo.convertTo(photo, CV_8U, 0.6, 70);  // a reflection over all of it
    const auto found = find_target(photo);
    REQUIRE(found);
    CHECK(found->markers.size() == 4);
    CHECK(worst_corner(*found, a4_mat, camera) < 0.3);
}

TEST_CASE("a photo without a target has none") {
    CHECK_FALSE(find_target(cv::Mat(600, 800, CV_8U, cv::Scalar(200))));
    cv::Mat noise(600, 800, CV_8U);
    cv::RNG(5).fill(noise, cv::RNG::UNIFORM, 0, 256);
    CHECK_FALSE(find_target(noise));
    // Larger than the search's picture, so that it is searched a second time.
    CHECK_FALSE(find_target(cv::Mat(1200, 2000, CV_8U, cv::Scalar(200))));
}

TEST_CASE("a marker's printed corners run clockwise from its top left") {
    const auto corners = printed_corners({1, {166, 0}});
    CHECK(corners[0] == cv::Point2d(154, -12));
    CHECK(corners[1] == cv::Point2d(178, -12));
    CHECK(corners[2] == cv::Point2d(178, 12));
    CHECK(corners[3] == cv::Point2d(154, 12));
}

}  // namespace
}  // namespace loafmark::analysis
