#include "refine_outline.h"

#include <algorithm>
#include <cmath>

#include <opencv2/imgproc.hpp>

#include "catch.h"
#include "made_bread.h"

namespace loafmark::analysis {
namespace {

constexpr double unit_per_pixel = 0.1;

struct Scene {
    cv::Mat photo;
    Polyline truth;  // frame pixels
};

Scene scene_on(cv::Vec3b ground) {
    made::Table table;
    table.photo = {900, 700};
    table.pixels_per_mm = 1 / unit_per_pixel;
    table.ground = ground;
    const made::Bread bread = made::bread_of(made::placed(made::dome(70, 50), {45, 60}));
    return {made::photo_of_bread(table, {bread}),
            mapped(made::photo_from_mm(table), bread.outline)};
}

// As a rough search leaves it: `out` mm too far out on average, and wavy.
Polyline roughened(const Polyline& line, double out) {
    const Polyline normals = outward_normals(line);
    Polyline rough(line.size());
    for (std::size_t i = 0; i < line.size(); ++i) {
        const double wave = 0.4 * std::sin(static_cast<double>(i) * 0.15);
        rough[i] = line[i] + (out + wave) / unit_per_pixel * normals[i];
    }
    return rough;
}

struct Miss {
    double mean = 0, most = 0, at_corners = 0;  // mm
};

// Distances of the refined outline from the true one. The base's two corners are sharper than any
// loaf's and count by themselves.
Miss miss_of(const RefinedOutline& refined, const Polyline& truth) {
    constexpr double corner_mm = 2;
    Polyline elsewhere, corners;
    for (const cv::Point2d& p : refined.outline) {
        const bool at_corner =
            std::min(cv::norm(p - cv::Point2d(100, 600)), cv::norm(p - cv::Point2d(800, 600))) <
            corner_mm / unit_per_pixel;
        (at_corner ? corners : elsewhere).push_back(p);
    }
    const made::Distance miss = made::distance(elsewhere, truth);
    return {miss.mean * unit_per_pixel, miss.most * unit_per_pixel,
            made::distance(corners, truth).most * unit_per_pixel};
}

TEST_CASE("a rough outline moves to where the slice ends, within 0.3 mm") {
    const cv::Vec3b white(236, 236, 234), blue(62, 96, 156), board(150, 112, 76), dark(46, 44, 42);
    for (const cv::Vec3b& ground : {white, blue, board, dark}) {
        const Scene scene = scene_on(ground);
        for (const double out : {-1.0, 0.0, 1.0}) {
            INFO("ground " << cv::Vec3i(ground) << ", rough outline " << out << " mm out");
            const RefinedOutline refined =
                refine_outline(scene.photo, roughened(scene.truth, out), unit_per_pixel);
            const Miss miss = miss_of(refined, scene.truth);
            CHECK(miss.mean < 0.1);
            CHECK(miss.most < 0.3);
            CHECK(miss.at_corners < 0.6);
            CHECK(area_inside(refined.outline) == Approx(area_inside(scene.truth)).epsilon(0.005));
        }
    }
}

TEST_CASE("a soft shadow beside the slice does not move its edge") {
    Scene scene = scene_on({236, 236, 234});
    // Darker by up to half towards the slice's right side, where no bread is.
    const cv::Mat face = filled(scene.truth, scene.photo.size());
    cv::Mat away;
    cv::distanceTransform(1 - face, away, cv::DIST_L2, 5);
    for (int y = 0; y < face.rows; ++y)
        for (int x = 450; x < face.cols; ++x) {
            if (face.at<uchar>(y, x)) continue;
            const double shade = 1 - 0.5 * std::exp(-away.at<float>(y, x) / 60);
            scene.photo.at<cv::Vec3b>(y, x) *= shade;
        }
    const RefinedOutline refined =
        refine_outline(scene.photo, roughened(scene.truth, 0.5), unit_per_pixel);
    CHECK(miss_of(refined, scene.truth).mean < 0.1);
    CHECK(miss_of(refined, scene.truth).most < 0.3);
}

TEST_CASE("a crumb on the table beside the slice moves nothing") {
    Scene scene = scene_on({62, 96, 156});
    cv::circle(scene.photo, {450, 75}, 12, cv::Scalar(224, 206, 172), cv::FILLED);  // crown at 100
    const RefinedOutline refined =
        refine_outline(scene.photo, roughened(scene.truth, 0.3), unit_per_pixel);
    CHECK(miss_of(refined, scene.truth).most < 0.3);
}

TEST_CASE("crust behind the cut does not pass for the face where the camera sees it") {
    Scene scene = scene_on({62, 96, 156});
    const SideBehind behind{{1900, 350}, 0.012};
    // The loaf's side, up to 1.5 mm of it, in the colour of its rim.
    const cv::Mat face = filled(scene.truth, scene.photo.size());
    const cv::Vec3b crust = scene.photo.at<cv::Vec3b>(110, 450);
    Polyline far_edge = scene.truth;
    for (cv::Point2d& p : far_edge)
        p += behind.share * (behind.foot - p);
    scene.photo.setTo(crust, filled(far_edge, face.size()) & (face == 0));
    cv::Mat known;
    face.convertTo(known, CV_32F);
    cv::GaussianBlur(known, known, {}, 2);

    const auto most_on_the_right = [&](const std::optional<SideBehind>& seen) {
        Polyline right;
        const RefinedOutline refined =
            refine_outline(scene.photo, scene.truth, unit_per_pixel, known, seen);
        for (const cv::Point2d& p : refined.outline)
            if (p.x > 600 && p.y < 560) right.push_back(p);
        return made::distance(right, scene.truth).most * unit_per_pixel;
    };
    CHECK(most_on_the_right(std::nullopt) > 0.6);
    CHECK(most_on_the_right(behind) < 0.3);
}

TEST_CASE("points of a refined outline lie half a millimetre apart") {
    const Scene scene = scene_on({62, 96, 156});
    const Polyline refined =
        refine_outline(scene.photo, roughened(scene.truth, 0.3), unit_per_pixel).outline;
    CHECK(length_of(refined) / static_cast<double>(refined.size()) ==
          Approx(0.5 / unit_per_pixel).epsilon(0.02));
}

}  // namespace
}  // namespace loafmark::analysis
