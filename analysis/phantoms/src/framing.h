// Where the camera goes so that all that matters is in the photo.
#pragma once

#include <vector>

#include "phantoms/phantom.h"

namespace loafmark::phantoms {

// A point of the scene that the photo must hold: x, y in the target's plane, and how far it stands
// above it (towards the camera), mm.
struct ScenePoint {
    PlanePoint at_mm;
    double above_mm = 0;
};

struct CameraWish {
    double tilt = 0;     // off the square view, radians
    double towards = 0;  // azimuth of the tilt
    double roll = 0;
    double focal_35mm = 26;
    double aspect = 0.75;  // shorter over longer side
    bool landscape = false;
    double pixels_per_mm = 8.5;  // of the cut at its middle
    double least_distance_mm = 280;
    double margin = 0.02;  // of the frame kept free on each side
};

// The nearest camera that holds all the points, its axis towards their middle.
[[nodiscard]] Camera frame_points(const std::vector<ScenePoint>& points, const CameraWish& wish);

// The corners of the target's markers with the white around them.
[[nodiscard]] std::vector<ScenePoint> target_corners(TargetKind kind);

// Points of a slice's outline as it lies.
[[nodiscard]] std::vector<ScenePoint> outline_points(const SliceRecipe& slice);

// Size of a slice's outline turned by an angle, and where the middle of that box lies from the
// slice's origin, mm.
struct TurnedBox {
    double width;
    double height;
    PlanePoint middle;
};
[[nodiscard]] TurnedBox turned_box(const LoafShape& loaf, double angle);

}  // namespace loafmark::phantoms
