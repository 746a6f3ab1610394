#include "phantoms/camera.h"

#include <cmath>

#include "catch.h"
#include "phantoms/render.h"

using namespace loafmark;
using namespace loafmark::phantoms;

TEST_CASE("a camera looking straight down sees the paper at focal length over distance") {
    const Camera camera = look_at({83, 126.5}, 0, 400, 0, 0, 0);
    const Homography h = photo_from_paper(camera);
    const PhotoPoint middle = project(h, {83, 126.5});
    CHECK(middle.x == Approx((camera.width - 1) / 2.0));
    CHECK(middle.y == Approx((camera.height - 1) / 2.0));
    const PhotoPoint beside = project(h, {183, 126.5});
    CHECK(beside.x - middle.x == Approx(100 * camera.focal_pixels() / 400));
    // f_px = f35 / 43.27 mm x diagonal.
    CHECK(camera.focal_pixels() == Approx(26 / 43.27 * std::sqrt(2016.0 * 2016 + 1512.0 * 1512)));
}

TEST_CASE("a raised slice is seen larger by its height over the camera's distance to it") {
    const Camera camera = look_at({0, 0}, 0, 400, 0, 0, 0);
    const Homography paper = photo_from_paper(camera);
    const Homography slice = photo_from_slice(camera, {{0, 0}, 0, 20});
    CHECK(project(slice, {50, 0}).x - project(slice, {0, 0}).x ==
          Approx((project(paper, {50, 0}).x - project(paper, {0, 0}).x) * 400 / 380));
}

TEST_CASE("rays and homographies agree for a tilted camera and a turned slice") {
    const Camera camera = look_at({70, 40}, 0, 330, 0.3, 1.1, 0.2);
    const SlicePose pose{{60, 55}, 0.7, 17};
    const PixelCamera rays = pixel_camera(camera);
    const Homography h = photo_from_slice(camera, pose);
    for (const PlanePoint p : {PlanePoint{0, 0}, PlanePoint{40, -30}, PlanePoint{-25, -80}}) {
        const PhotoPoint seen = project(h, p);
        const Vec3 d = ray_direction(rays, static_cast<float>(seen.x), static_cast<float>(seen.y));
        // The cut face is z = -17; seen from the slice's frame it is turned back by 0.7.
        const Vec3 met = rays.eye + d * ((-17 - rays.eye.z) / d.z);
        const double x = met.x - 60, y = met.y - 55, c = std::cos(0.7), s = std::sin(0.7);
        CHECK(c * x + s * y == Approx(p.x).margin(2e-3));
        CHECK(-s * x + c * y == Approx(p.y).margin(2e-3));
    }
}
