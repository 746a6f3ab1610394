#include "framing.h"

#include <algorithm>
#include <cmath>

namespace loafmark::phantoms {

namespace {

bool holds(const Camera& camera, const std::vector<ScenePoint>& points, double margin) {
    return std::all_of(points.begin(), points.end(), [&](const ScenePoint& p) {
        const SlicePose plane{{0, 0}, 0, p.above_mm};
        const PhotoPoint q = project(photo_from_slice(camera, plane), p.at_mm);
        const double mx = margin * camera.width, my = margin * camera.height;
        return q.x > mx && q.y > my && q.x < camera.width - 1 - mx && q.y < camera.height - 1 - my;
    });
}

PlanePoint middle_of(const std::vector<ScenePoint>& points) {
    PlanePoint low{1e9, 1e9}, high{-1e9, -1e9};
    for (const ScenePoint& p : points) {
        low = {std::min(low.x, p.at_mm.x), std::min(low.y, p.at_mm.y)};
        high = {std::max(high.x, p.at_mm.x), std::max(high.y, p.at_mm.y)};
    }
    return {(low.x + high.x) / 2, (low.y + high.y) / 2};
}

PlanePoint turned(PlanePoint p, double angle) {
    const double c = std::cos(angle), s = std::sin(angle);
    return {c * p.x - s * p.y, s * p.x + c * p.y};
}

}  // namespace

Camera frame_points(const std::vector<ScenePoint>& points, const CameraWish& wish) {
    const PlanePoint gaze = middle_of(points);
    const double above = points.empty() ? 0 : points.back().above_mm;
    Camera camera;
    for (double distance = wish.least_distance_mm; distance < 2000; distance *= 1.02) {
        const double diagonal_share = std::hypot(1, wish.aspect);
        const double focal_px = wish.pixels_per_mm * (distance - above);
        const int longer =
            static_cast<int>(std::lround(focal_px / wish.focal_35mm * 43.27 / diagonal_share / 4)) *
            4;
        const int shorter = static_cast<int>(std::lround(longer * wish.aspect / 4)) * 4;
        camera = look_at(gaze, 0, distance, wish.tilt, wish.towards, wish.roll);
        camera.focal_35mm = wish.focal_35mm;
        camera.width = wish.landscape ? longer : shorter;
        camera.height = wish.landscape ? shorter : longer;
        if (holds(camera, points, wish.margin)) break;
    }
    return camera;
}

std::vector<ScenePoint> target_corners(TargetKind kind) {
    const auto markers = markers_of(kind);
    const double quiet = marker_side_mm / 2 + marker_side_mm / marker_modules;
    std::vector<ScenePoint> corners;
    for (const TargetMarker& marker : markers)
        for (const double dx : {-quiet, quiet})
            for (const double dy : {-quiet, quiet})
                corners.push_back({{marker.centre_mm.x + dx, marker.centre_mm.y + dy}});
    return corners;
}

std::vector<ScenePoint> outline_points(const SliceRecipe& slice) {
    std::vector<ScenePoint> points;
    for (const PlanePoint& p : loaf_outline(slice.loaf)) {
        const double way = slice.pose.mirrored ? -1 : 1;
        const PlanePoint q = turned({way * p.x, p.y}, slice.pose.angle);
        points.push_back(
            {{slice.pose.origin_mm.x + q.x, slice.pose.origin_mm.y + q.y}, slice.pose.height_mm});
    }
    return points;
}

TurnedBox turned_box(const LoafShape& loaf, double angle) {
    PlanePoint low{1e9, 1e9}, high{-1e9, -1e9};
    for (const PlanePoint& p : loaf_outline(loaf)) {
        const PlanePoint q = turned(p, angle);
        low = {std::min(low.x, q.x), std::min(low.y, q.y)};
        high = {std::max(high.x, q.x), std::max(high.y, q.y)};
    }
    return {high.x - low.x, high.y - low.y, {(low.x + high.x) / 2, (low.y + high.y) / 2}};
}

}  // namespace loafmark::phantoms
