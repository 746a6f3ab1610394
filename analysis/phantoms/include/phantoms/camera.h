// A pinhole camera above the table, and the homographies of the planes that it sees. Target frame:
// x right, y down on the paper, z into the table; the paper is z = 0, so the camera's z is
// negative.
#pragma once

#include <array>

#include "analysis/geometry.h"

namespace loafmark::phantoms {

struct Camera {
    int width = 2016;  // pixels
    int height = 1512;
    double focal_35mm = 26;  // as in EXIF: by the frame's diagonal, f_px = f35 / 43.27 x diagonal
    std::array<double, 3> eye{0, 0, -350};  // mm, target frame
    // Unit directions of the photo's x, of its y, and of the view, in the target frame.
    std::array<double, 3> right{1, 0, 0};
    std::array<double, 3> down{0, 1, 0};
    std::array<double, 3> forward{0, 0, 1};
    // Radial distortion: a pixel at r (of the half diagonal) sees where a pinhole's r (1 + k r^2)
    // would. The homographies are those of the pinhole.
    double distortion = 0;

    [[nodiscard]] double focal_pixels() const;
    bool operator==(const Camera&) const = default;
};

// A camera that looks at `target_mm` (on the plane z = plane_z) from `distance_mm`, its axis `tilt`
// away from the vertical towards the azimuth `towards`, and the photo turned by `roll`; radians.
[[nodiscard]] Camera look_at(PlanePoint target_mm, double plane_z, double distance_mm, double tilt,
                             double towards, double roll);

// Where a slice lies: its frame's origin in the target frame, turned by `angle` radians (x towards
// y), its cut face at z = -height_mm. Mirrored: its x runs the other way.
struct SlicePose {
    PlanePoint origin_mm;
    double angle = 0;
    double height_mm = 15;
    bool mirrored = false;
    bool operator==(const SlicePose&) const = default;
};

// Plane mm (x, y, 1) to photo pixels, up to scale.
[[nodiscard]] Homography photo_from_paper(const Camera& camera);
[[nodiscard]] Homography photo_from_slice(const Camera& camera, const SlicePose& pose);

[[nodiscard]] PhotoPoint project(const Homography& photo_from_plane, PlanePoint point);

}  // namespace loafmark::phantoms
