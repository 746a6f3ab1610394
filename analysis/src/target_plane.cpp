#include "target_plane.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include <opencv2/calib3d.hpp>

namespace loafmark::analysis {
namespace {

constexpr double film_diagonal_mm = 43.27;
// The main camera of today's phones; common practice, no source.
constexpr double usual_focal_35mm = 26;
// How far a phone's focal length may be from that, as a standard deviation of its logarithm: 22
// to 31.
constexpr double usual_focal_spread = 0.15;
constexpr double corner_sigma_px = 0.5;

struct Correspondence {
    std::vector<cv::Point3d> on_paper;
    std::vector<cv::Point2d> in_photo;
};

Correspondence correspondence(const SeenTarget& target, double print_scale) {
    Correspondence points;
    for (const SeenMarker& seen : target.markers) {
        for (const TargetMarker& printed : markers_of(target.kind)) {
            if (printed.id != seen.id) continue;
            for (const cv::Point2d& p : printed_corners(printed))
                points.on_paper.emplace_back(p.x * print_scale, p.y * print_scale, 0.0);
            points.in_photo.insert(points.in_photo.end(), seen.corners.begin(), seen.corners.end());
        }
    }
    return points;
}

cv::Matx33d camera_matrix(double focal_px, cv::Size photo) {
    return {focal_px, 0, (photo.width - 1) / 2.0, 0, focal_px, (photo.height - 1) / 2.0, 0, 0, 1};
}

cv::Vec3d column(const cv::Matx33d& m, int c) {
    return {m(0, c), m(1, c), m(2, c)};
}

struct Fit {
    cv::Vec3d rotation;  // Rodrigues
    cv::Vec3d translation;
    double residual_px = std::numeric_limits<double>::infinity();
};

Fit fit_pose(const Correspondence& points, double focal_px, cv::Size photo) {
    const cv::Matx33d camera = camera_matrix(focal_px, photo);
    Fit fit;
    cv::solvePnP(points.on_paper, points.in_photo, camera, cv::noArray(), fit.rotation,
                 fit.translation, false, cv::SOLVEPNP_IPPE);
    // On corners without any error IPPE may take the root of a negative rounding error.
    if (!std::isfinite(cv::norm(fit.rotation)))
        cv::solvePnP(points.on_paper, points.in_photo, camera, cv::noArray(), fit.rotation,
                     fit.translation, false, cv::SOLVEPNP_ITERATIVE);
    cv::solvePnPRefineLM(points.on_paper, points.in_photo, camera, cv::noArray(), fit.rotation,
                         fit.translation);
    std::vector<cv::Point2d> projected;
    cv::projectPoints(points.on_paper, fit.rotation, fit.translation, camera, cv::noArray(),
                      projected);
    double sum = 0;
    for (std::size_t i = 0; i < projected.size(); ++i) {
        const cv::Point2d d = projected[i] - points.in_photo[i];
        sum += d.dot(d);
    }
    fit.residual_px = std::sqrt(sum / static_cast<double>(projected.size()));
    return fit;
}

// Without EXIF: the focal length that best explains the markers, held near the usual one. A
// square-on view tells nothing about it, and then the usual one stays.
double estimated_focal(const Correspondence& points, double usual_px, cv::Size photo) {
    double best = usual_px;
    double best_cost = std::numeric_limits<double>::infinity();
    for (double step = -2; step <= 2.001; step += 0.2) {
        const double focal = usual_px * std::exp(step * usual_focal_spread);
        const double residual = fit_pose(points, focal, photo).residual_px;
        const double misfit =
            static_cast<double>(points.in_photo.size()) * std::pow(residual / corner_sigma_px, 2);
        const double cost = misfit + step * step;
        if (cost < best_cost) {
            best_cost = cost;
            best = focal;
        }
    }
    return best;
}

}  // namespace

Lens lens_of(std::optional<double> focal_length_35mm, cv::Size photo) {
    const double diagonal = std::hypot(photo.width, photo.height);
    return {focal_length_35mm.value_or(usual_focal_35mm) / film_diagonal_mm * diagonal,
            focal_length_35mm.has_value()};
}

PaperPose paper_pose(const SeenTarget& target, Lens lens, cv::Size photo, double print_scale) {
    const Correspondence points = correspondence(target, print_scale);
    if (!lens.from_exif && target.markers.size() > 1)
        lens.focal_px = estimated_focal(points, lens.focal_px, photo);
    const Fit fit = fit_pose(points, lens.focal_px, photo);
    PaperPose pose;
    cv::Rodrigues(fit.rotation, pose.rotation);
    pose.translation = fit.translation;
    pose.lens = lens;
    pose.photo = photo;
    pose.residual_px = fit.residual_px;
    pose.tilt_deg =
        std::acos(std::clamp(std::abs(pose.rotation(2, 2)), 0.0, 1.0)) * 180 / std::numbers::pi;
    return pose;
}

cv::Matx33d photo_from_plane(const PaperPose& pose, double height_mm) {
    const cv::Vec3d right = column(pose.rotation, 0);
    const cv::Vec3d down = column(pose.rotation, 1);
    const cv::Vec3d into_table = column(pose.rotation, 2);
    const cv::Vec3d origin = pose.translation - height_mm * into_table;
    const cv::Matx33d camera_from_plane(right[0], down[0], origin[0], right[1], down[1], origin[1],
                                        right[2], down[2], origin[2]);
    return camera_matrix(pose.lens.focal_px, pose.photo) * camera_from_plane;
}

double camera_height_mm(const PaperPose& pose) {
    return std::abs(column(pose.rotation, 2).dot(pose.translation));
}

cv::Point2d camera_foot_mm(const PaperPose& pose) {
    // The camera's place on paper is -R^T t; its foot drops the last coordinate.
    return {-column(pose.rotation, 0).dot(pose.translation),
            -column(pose.rotation, 1).dot(pose.translation)};
}

double mm_per_pixel_at(const cv::Matx33d& h, cv::Point2d at) {
    const double w = h(2, 0) * at.x + h(2, 1) * at.y + h(2, 2);
    const double u = (h(0, 0) * at.x + h(0, 1) * at.y + h(0, 2)) / w;
    const double v = (h(1, 0) * at.x + h(1, 1) * at.y + h(1, 2)) / w;
    const cv::Matx22d jacobian((h(0, 0) - u * h(2, 0)) / w, (h(0, 1) - u * h(2, 1)) / w,
                               (h(1, 0) - v * h(2, 0)) / w, (h(1, 1) - v * h(2, 1)) / w);
    return 1 / std::sqrt(std::abs(cv::determinant(jacobian)));
}

double scale_error_from_corners(const SeenTarget& target, const PaperPose& pose, double height_mm,
                                cv::Point2d at, double print_scale) {
    const Correspondence points = correspondence(target, print_scale);
    // Residuals understate the scatter where few corners carry six numbers of pose.
    const auto n = static_cast<double>(points.in_photo.size());
    const double freedom = std::max(1.0, 2 * n - 6) / (2 * n);
    const double sigma = std::max(0.25, pose.residual_px / std::sqrt(2 * freedom));
    const double centre = mm_per_pixel_at(photo_from_plane(pose, height_mm), at);
    cv::RNG random(20260301);
    constexpr int refits = 24;
    double sum = 0;
    for (int i = 0; i < refits; ++i) {
        Correspondence moved = points;
        for (cv::Point2d& p : moved.in_photo)
            p += cv::Point2d(random.gaussian(sigma), random.gaussian(sigma));
        const Fit fit = fit_pose(moved, pose.lens.focal_px, pose.photo);
        PaperPose other = pose;
        cv::Rodrigues(fit.rotation, other.rotation);
        other.translation = fit.translation;
        const double relative =
            mm_per_pixel_at(photo_from_plane(other, height_mm), at) / centre - 1;
        sum += relative * relative;
    }
    return std::sqrt(sum / refits);
}

}  // namespace loafmark::analysis
