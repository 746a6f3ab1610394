#include "scale.h"

#include <algorithm>
#include <cmath>

#include "catch.h"
#include "geometry2d.h"
#include "target_photo.h"

namespace loafmark::analysis {
namespace {

const made::LaidTarget a4_mat{{0, 1, 2, 3}, {}, 1};
const made::LaidTarget strip{{8, 9}, {}, 1};

Photo photo_taken_by(const made::Camera& camera, bool with_exif) {
    Photo photo;
    photo.rgb = cv::Mat::zeros(camera.photo, CV_8UC3);
    if (with_exif) photo.focal_length_35mm = camera.focal_35mm;
    return photo;
}

WorkingPlane plane(const made::LaidTarget& laid, const MeasureOptions& options,
                   bool with_exif = true) {
    made::Camera camera;
    camera.tilt_deg = 10;
    return plane_from_target(made::perfectly_seen(laid, camera), photo_taken_by(camera, with_exif),
                             options, camera.seen({83, 126}, 15));
}

MeasureOptions thick(std::vector<double> mm) {
    MeasureOptions options;
    for (const double t : mm)
        options.thickness.emplace_back(t);
    options.print_checks[TargetKind::a4_mat] = Millimetres(100);
    return options;
}

bool warns(const WorkingPlane& plane, WarningCode code) {
    return std::any_of(plane.warnings.begin(), plane.warnings.end(),
                       [&](const Warning& w) { return w.code == code; });
}

TEST_CASE("with a mat and a ruled thickness the plane lies that high above the paper") {
    const WorkingPlane found = plane(a4_mat, thick({15}));
    CHECK(found.source == ScaleSource::mat);
    REQUIRE(found.height_mm);
    CHECK(found.height_mm->value == Approx(15).margin(0.5));
    CHECK(found.height_mm->low < 15);
    CHECK(found.height_mm->high > 15);
    CHECK(found.warnings.empty());
    CHECK(found.length_error > 0);
    CHECK(found.length_error < 0.005);
}

TEST_CASE("a mat without a thickness assumes 15 mm, widens intervals and says so") {
    const WorkingPlane found = plane(a4_mat, {});
    REQUIRE(found.height_mm);
    CHECK(found.height_mm->value == 15);
    CHECK(found.height_mm->low == 8);
    CHECK(found.height_mm->high == 25);
    CHECK(warns(found, WarningCode::thickness_assumed));
    CHECK(found.length_error > 2 * plane(a4_mat, thick({15})).length_error);
}

TEST_CASE(
    "a baker's usual thickness is taken on a mat where none is given, less surely, and said") {
    MeasureOptions usual = thick({});
    usual.usual_thickness = Millimetres(12);
    const WorkingPlane found = plane(a4_mat, usual);
    REQUIRE(found.height_mm);
    CHECK(found.height_mm->value == Approx(12).margin(0.5));
    CHECK(found.height_mm->low < 10.4);  // 2 mm to either side
    CHECK(found.height_mm->high > 13.9);
    REQUIRE(warns(found, WarningCode::thickness_assumed));
    CHECK(found.warnings.front().message.find("12 mm is taken, as you usually cut") !=
          std::string::npos);
    CHECK(found.length_error > plane(a4_mat, thick({12})).length_error);
    CHECK(found.length_error < plane(a4_mat, thick({})).length_error);
    usual.thickness = {Millimetres(20)};
    CHECK(plane(a4_mat, usual).height_mm->value == plane(a4_mat, thick({20})).height_mm->value);
    usual.thickness.clear();
    CHECK_FALSE(plane(strip, usual).height_mm);  // a strip stands in the plane of the cut
}

TEST_CASE("a strip without a thickness stands in the plane of the cut") {
    const WorkingPlane found = plane(strip, {});
    CHECK(found.source == ScaleSource::strip);
    CHECK(found.target == TargetKind::strip);
    CHECK_FALSE(found.height_mm);
    CHECK_FALSE(found.viewpoint);
    // Where the camera stands is known all the same.
    REQUIRE(found.front_view);
    const auto lying = plane(strip, thick({15}));
    REQUIRE(lying.viewpoint);
    CHECK_FALSE(lying.front_view);
    CHECK(cv::norm(found.front_view->foot_mm - lying.viewpoint->foot_mm) < 1e-6);
    CHECK(found.front_view->distance_mm > lying.viewpoint->distance_mm);
    CHECK(found.warnings.size() == 1);
    CHECK(warns(found, WarningCode::print_not_checked));
    CHECK(plane(strip, thick({15})).height_mm->value == Approx(15).margin(0.5));
}

TEST_CASE("a wedge is measured at its mean thickness, less surely") {
    const WorkingPlane wedge = plane(a4_mat, thick({12, 18}));
    CHECK(wedge.height_mm->value == plane(a4_mat, thick({15})).height_mm->value);
    CHECK(wedge.length_error > plane(a4_mat, thick({15, 15})).length_error);
}

TEST_CASE("a photo that does not tell its focal length widens intervals and says so") {
    const WorkingPlane found = plane(a4_mat, thick({15}), false);
    CHECK(warns(found, WarningCode::focal_length_assumed));
    CHECK(found.length_error > plane(a4_mat, thick({15})).length_error);
}

TEST_CASE("hidden markers are told") {
    const WorkingPlane found = plane({{0, 2}, {}, 1}, thick({15}));
    REQUIRE(warns(found, WarningCode::target_partly_hidden));
    CHECK(found.warnings.front().message == "only 2 of the target's 4 markers are seen");
}

TEST_CASE("paper that is bent or printed out of shape is told") {
    const made::Camera camera;
    SeenTarget seen = made::perfectly_seen(a4_mat, camera);
    for (cv::Point2d& corner : seen.markers[0].corners)
        corner += cv::Point2d(25, 0);
    const WorkingPlane found =
        plane_from_target(seen, photo_taken_by(camera, true), thick({15}), {400, 500});
    CHECK(warns(found, WarningCode::target_conflict));
}

TEST_CASE("a checked print is surer than one that is believed, and only the latter is told") {
    MeasureOptions believed = thick({15});
    believed.print_checks.clear();
    believed.print_checks[TargetKind::letter_mat] = Millimetres(100);  // another target's
    CHECK(plane(a4_mat, thick({15})).length_error < plane(a4_mat, believed).length_error);
    CHECK(warns(plane(a4_mat, believed), WarningCode::print_not_checked));
    CHECK_FALSE(warns(plane(a4_mat, thick({15})), WarningCode::print_not_checked));
}

TEST_CASE("what is said of this photo's print goes before what is known of its target") {
    const auto hundred_pixels = [](const MeasureOptions& options) {
        const cv::Matx33d back = plane(a4_mat, options).photo_from_plane.inv();
        return cv::norm(mapped(back, {450, 500}) - mapped(back, {350, 500}));
    };
    MeasureOptions options = thick({15});
    const double kept = hundred_pixels(options);
    options.print_check = Millimetres(98.7);
    const double said = hundred_pixels(options);
    CHECK(said / kept == Approx(0.987).epsilon(0.001));
    options.print_check.reset();
    options.print_checks[TargetKind::a4_mat] = Millimetres(98.7);
    CHECK(hundred_pixels(options) == Approx(said));
}

WorkingPlane seen_at(double tilt_deg, cv::Size photo = {800, 1000}) {
    made::Camera camera;
    camera.photo = photo;
    camera.tilt_deg = tilt_deg;
    return plane_from_target(made::perfectly_seen(a4_mat, camera), photo_taken_by(camera, true),
                             thick({15}), camera.seen({83, 126}, 15));
}

TEST_CASE("a view from far aside is told, and one from further gives no lengths") {
    CHECK(seen_at(20).warnings.empty());
    CHECK(warns(seen_at(35), WarningCode::tilted));
    CHECK(seen_at(35).has_scale());
    CHECK(warns(seen_at(55), WarningCode::tilted));
    CHECK_FALSE(seen_at(55).has_scale());
}

TEST_CASE("a target of few pixels is told") {
    CHECK_FALSE(warns(seen_at(5), WarningCode::target_small));
    CHECK(warns(seen_at(5, {400, 500}), WarningCode::target_small));
}

// Any set of markers, corners scattered as a phone's, views from all sides: the error of a length
// at the cut face over its standard error.
TEST_CASE("with four markers, three, two or one the scale lies within its interval") {
    cv::RNG random(11);
    const std::vector<std::vector<int>> sets{{0, 1, 2, 3}, {0, 1, 2}, {1, 3}, {0, 1}, {2}};
    for (const std::vector<int>& ids : sets) {
        int within = 0;
        constexpr int views = 60;
        for (int view = 0; view < views; ++view) {
            made::Camera camera;
            camera.photo = {3000, 4000};
            camera.tilt_deg = random.uniform(0.0, 15.0);
            camera.turn_deg = random.uniform(0.0, 360.0);
            camera.height_mm = random.uniform(380.0, 500.0);
            const double thickness = 15 + random.gaussian(0.25);
            SeenTarget seen = made::perfectly_seen({ids, {}, 1}, camera);
            for (SeenMarker& marker : seen.markers)
                for (cv::Point2d& corner : marker.corners)
                    corner += cv::Point2d(random.gaussian(0.25), random.gaussian(0.25));
            const WorkingPlane found = plane_from_target(
                seen, photo_taken_by(camera, true), thick({15}), camera.seen({83, 126}, thickness));
            const cv::Matx33d back = found.photo_from_plane.inv();
            const cv::Point2d a(53, 126), b(113, 126), c(83, 96), d(83, 156);
            const auto length = [&](cv::Point2d p, cv::Point2d q) {
                return cv::norm(mapped(back, camera.seen(p, thickness)) -
                                mapped(back, camera.seen(q, thickness)));
            };
            const double error = std::sqrt(length(a, b) * length(c, d)) / 60 - 1;
            within += std::abs(error) <= 1.96 * found.length_error;
        }
        CAPTURE(ids.size(), ids.front(), within);
        CHECK(within >= 0.9 * views);
    }
}

TEST_CASE("a known width gives the scale, with room for a tilt of 15 degrees") {
    MeasureOptions options;
    options.loaf_width = Millimetres(118);
    const WorkingPlane found = plane_without_target(options, 590);
    CHECK(found.source == ScaleSource::known_length);
    CHECK(found.photo_from_plane(0, 0) == Approx(5));  // pixels a mm
    CHECK(warns(found, WarningCode::known_length_only));
    // Foreshortening alone: 1 / cos 15 degrees is 1.035.
    CHECK(1.96 * found.length_error > 0.035);
    CHECK(1.96 * found.length_error < 0.08);
}

// The width as typed, the height as seen: what the tilt does to it, foreshortening and nearness
// both.
double height_read_at(double tilt_deg, double turn_deg, double camera_mm) {
    made::Camera camera;
    camera.tilt_deg = tilt_deg;
    camera.height_mm = camera_mm;
    camera.foot_mm = {0, 0};
    const double turn = turn_deg * CV_PI / 180;
    const auto seen = [&](double x, double y) {
        return camera.seen(
            {x * std::cos(turn) - y * std::sin(turn), x * std::sin(turn) + y * std::cos(turn)});
    };
    // A slice of 118 x 90 with a bow on top.
    const cv::Point2d left = seen(-59, 45), right = seen(59, 45);
    const cv::Point2d along = (right - left) / cv::norm(right - left), up(along.y, -along.x);
    double low = 0, high = 0, height = 0;
    for (double t = 0; t <= CV_PI; t += 0.01) {
        const cv::Point2d p = seen(59 * std::cos(t), -10 - 35 * std::sin(t)) - left;
        height = std::max(height, p.dot(up));
        low = std::min(low, p.dot(along)), high = std::max(high, p.dot(along));
    }
    high = std::max(high, cv::norm(right - left));
    return height * 118 / (high - low);
}

TEST_CASE(
    "with one known length, whatever 15 degrees of tilt do to a height lies in the interval") {
    MeasureOptions options;
    options.loaf_width = Millimetres(118);
    const WorkingPlane found = plane_without_target(options, 590);
    for (const double camera_mm : {350.0, 450.0})
        for (double turn = 0; turn < 360; turn += 15) {
            CAPTURE(camera_mm, turn);
            CHECK(height_read_at(15, turn, camera_mm) ==
                  Approx(90).margin(1.96 * 90 * found.length_error));
        }
    CHECK(found.ratio_error > 0);
    CHECK(plane_without_target({}, 590).ratio_error > 0);
}

TEST_CASE("with nothing known there is no scale, and working units of 120 a slice") {
    const WorkingPlane found = plane_without_target({}, 600);
    CHECK_FALSE(found.has_scale());
    CHECK(found.photo_from_plane(0, 0) == Approx(5));
    CHECK(warns(found, WarningCode::no_target));
}

}  // namespace
}  // namespace loafmark::analysis
