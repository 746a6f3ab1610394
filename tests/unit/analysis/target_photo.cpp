#include "target_photo.h"

#include <cmath>
#include <numbers>
#include <stdexcept>

#include <opencv2/imgproc.hpp>

#include "colour.h"

namespace loafmark::analysis::made {
namespace {

double radians(double degrees) {
    return degrees * std::numbers::pi / 180;
}

const TargetMarker& layout_of(int id) {
    for (const TargetMarker& marker : markers_of(target_of_marker(id).value()))
        if (marker.id == id) return marker;
    throw std::logic_error("no such marker");
}

// Ink at a point of the paper.
bool black(const std::vector<LaidTarget>& targets, cv::Point2d paper) {
    for (const LaidTarget& target : targets) {
        const cv::Point2d p = (paper - target.at_mm) / target.print_scale;
        for (const int id : target.ids) {
            const TargetMarker& marker = layout_of(id);
            const double module = marker_side_mm / marker_modules;
            const double column = (p.x - marker.centre_mm.x + marker_side_mm / 2) / module;
            const double row = (p.y - marker.centre_mm.y + marker_side_mm / 2) / module;
            if (column < 0 || row < 0 || column >= marker_modules || row >= marker_modules)
                continue;
            return !marker_module_is_white(id, static_cast<int>(row), static_cast<int>(column));
        }
    }
    return false;
}

}  // namespace

double Camera::focal_px() const {
    return focal_35mm / 43.27 * std::hypot(photo.width, photo.height);
}

cv::Matx34d Camera::projection() const {
    const double a = radians(tilt_deg), b = radians(turn_deg);
    const cv::Matx33d tilt(1, 0, 0, 0, std::cos(a), -std::sin(a), 0, std::sin(a), std::cos(a));
    const cv::Matx33d turn(std::cos(b), -std::sin(b), 0, std::sin(b), std::cos(b), 0, 0, 0, 1);
    const cv::Matx33d rotation = turn * tilt;
    // The photo's middle looks at the foot, from height_mm away along the view.
    const cv::Vec3d foot(foot_mm.x, foot_mm.y, 0);
    const cv::Vec3d translation = cv::Vec3d(0, 0, height_mm) - rotation * foot;
    const cv::Matx33d lens(focal_px(), 0, (photo.width - 1) / 2.0, 0, focal_px(),
                           (photo.height - 1) / 2.0, 0, 0, 1);
    // Heights count upwards, the paper's z into the table.
    cv::Matx34d camera_from_world;
    for (int r = 0; r < 3; ++r) {
        camera_from_world(r, 0) = rotation(r, 0);
        camera_from_world(r, 1) = rotation(r, 1);
        camera_from_world(r, 2) = -rotation(r, 2);
        camera_from_world(r, 3) = translation[r];
    }
    return lens * camera_from_world;
}

cv::Point2d Camera::seen(cv::Point2d on_paper_mm, double above_mm) const {
    const cv::Vec3d p = projection() * cv::Vec4d(on_paper_mm.x, on_paper_mm.y, above_mm, 1);
    return {p[0] / p[2], p[1] / p[2]};
}

cv::Mat photo_of(const std::vector<LaidTarget>& targets, const Camera& camera) {
    constexpr int samples = 4;
    const double white = linear_light(230 / 255.0), ink = linear_light(25 / 255.0);
    const cv::Matx34d p = camera.projection();
    const cv::Matx33d paper_from_photo =
        cv::Matx33d(p(0, 0), p(0, 1), p(0, 3), p(1, 0), p(1, 1), p(1, 3), p(2, 0), p(2, 1), p(2, 3))
            .inv();
    cv::Mat photo(camera.photo, CV_8U);
    for (int y = 0; y < photo.rows; ++y)
        for (int x = 0; x < photo.cols; ++x) {
            int dark = 0;
            for (int k = 0; k < samples * samples; ++k) {
                const double dx = (k % samples + 0.5) / samples - 0.5;
                const double dy = (k / samples + 0.5) / samples - 0.5;
                const cv::Vec3d q = paper_from_photo * cv::Vec3d(x + dx, y + dy, 1);
                dark += black(targets, {q[0] / q[2], q[1] / q[2]});
            }
            const double light = white - (white - ink) * dark / (samples * samples);
            photo.at<uchar>(y, x) = cv::saturate_cast<uchar>(255 * srgb_of(light));
        }
    return photo;
}

cv::Mat out_of_focus(const cv::Mat& photo, double sigma_px) {
    cv::Mat light(1, 256, CV_32F), blurred;
    for (int code = 0; code < 256; ++code)
        light.at<float>(code) = static_cast<float>(linear_light(code / 255.0));
    cv::LUT(photo, light, blurred);
    cv::GaussianBlur(blurred, blurred, {}, sigma_px);
    cv::Mat coded(photo.size(), photo.type());
    for (int y = 0; y < coded.rows; ++y)
        for (int x = 0; x < coded.cols * coded.channels(); ++x)
            coded.ptr<uchar>(y)[x] =
                cv::saturate_cast<uchar>(255 * srgb_of(blurred.ptr<float>(y)[x]));
    return coded;
}

std::array<cv::Point2d, 4> true_corners(int id, const LaidTarget& target, const Camera& camera) {
    std::array<cv::Point2d, 4> corners;
    const TargetMarker& marker = layout_of(id);
    constexpr std::array<std::array<double, 2>, 4> clockwise = {
        {{-0.5, -0.5}, {0.5, -0.5}, {0.5, 0.5}, {-0.5, 0.5}}};
    for (std::size_t i = 0; i < 4; ++i) {
        const cv::Point2d nominal(marker.centre_mm.x + clockwise[i][0] * marker_side_mm,
                                  marker.centre_mm.y + clockwise[i][1] * marker_side_mm);
        corners[i] = camera.seen(target.at_mm + target.print_scale * nominal);
    }
    return corners;
}

SeenTarget perfectly_seen(const LaidTarget& target, const Camera& camera) {
    SeenTarget seen;
    seen.kind = target_of_marker(target.ids.front()).value();
    for (const int id : target.ids)
        seen.markers.push_back({id, true_corners(id, target, camera)});
    return seen;
}

}  // namespace loafmark::analysis::made
