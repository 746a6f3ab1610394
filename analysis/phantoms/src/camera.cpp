#include "phantoms/camera.h"

#include <cmath>

namespace loafmark::phantoms {

namespace {

using Triple = std::array<double, 3>;

double dot(const Triple& a, const Triple& b) {
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

// Photo pixels of plane points (x, y) whose target-frame position is origin + x e1 + y e2.
Homography plane_homography(const Camera& camera, const Triple& e1, const Triple& e2,
                            const Triple& origin) {
    const Triple from_eye{origin[0] - camera.eye[0], origin[1] - camera.eye[1],
                          origin[2] - camera.eye[2]};
    const double f = camera.focal_pixels();
    const double cx = (camera.width - 1) / 2.0, cy = (camera.height - 1) / 2.0;
    Homography h{};
    const std::array<const Triple*, 3> columns{&e1, &e2, &from_eye};
    for (std::size_t c = 0; c < 3; ++c) {
        const double depth = dot(camera.forward, *columns[c]);
        h[0][c] = f * dot(camera.right, *columns[c]) + cx * depth;
        h[1][c] = f * dot(camera.down, *columns[c]) + cy * depth;
        h[2][c] = depth;
    }
    return h;
}

Triple combine(const Triple& a, double ka, const Triple& b, double kb) {
    return {a[0] * ka + b[0] * kb, a[1] * ka + b[1] * kb, a[2] * ka + b[2] * kb};
}

}  // namespace

double Camera::focal_pixels() const {
    return focal_35mm / 43.27 * std::hypot(width, height);
}

Camera look_at(PlanePoint target_mm, double plane_z, double distance_mm, double tilt,
               double towards, double roll) {
    const double s = std::sin(tilt), c = std::cos(tilt);
    Camera camera;
    camera.forward = {-s * std::cos(towards), -s * std::sin(towards), c};
    // Tilting about the axis square to `towards` carries the frame's x and y along.
    const Triple lean{std::cos(towards), std::sin(towards), 0};
    const Triple side{-std::sin(towards), std::cos(towards), 0};
    const Triple leaned{c * lean[0], c * lean[1], s};
    const Triple x = combine(leaned, std::cos(towards), side, -std::sin(towards));
    const Triple y = combine(leaned, std::sin(towards), side, std::cos(towards));
    camera.right = combine(x, std::cos(roll), y, std::sin(roll));
    camera.down = combine(x, -std::sin(roll), y, std::cos(roll));
    camera.eye = {target_mm.x - distance_mm * camera.forward[0],
                  target_mm.y - distance_mm * camera.forward[1],
                  plane_z - distance_mm * camera.forward[2]};
    return camera;
}

Homography photo_from_paper(const Camera& camera) {
    return plane_homography(camera, {1, 0, 0}, {0, 1, 0}, {0, 0, 0});
}

Homography photo_from_slice(const Camera& camera, const SlicePose& pose) {
    const double c = std::cos(pose.angle), s = std::sin(pose.angle), way = pose.mirrored ? -1 : 1;
    return plane_homography(camera, {way * c, way * s, 0}, {-s, c, 0},
                            {pose.origin_mm.x, pose.origin_mm.y, -pose.height_mm});
}

PhotoPoint project(const Homography& h, PlanePoint p) {
    const double w = h[2][0] * p.x + h[2][1] * p.y + h[2][2];
    return {(h[0][0] * p.x + h[0][1] * p.y + h[0][2]) / w,
            (h[1][0] * p.x + h[1][1] * p.y + h[1][2]) / w};
}

}  // namespace loafmark::phantoms
