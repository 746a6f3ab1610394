// Points and plane transforms, named by the frame that they live in.
//
// Pixel convention (OpenCV's): the centre of the top-left pixel is (0, 0), x right, y down, in the
// photo as a person sees it, that is after its EXIF orientation was applied.
#pragma once

#include <array>
#include <vector>

namespace loafmark {

// A position in a photo, in pixels.
struct PhotoPoint {
    double x = 0;
    double y = 0;
    bool operator==(const PhotoPoint&) const = default;
};

// A position in the plane of the cut face, in mm: x right, y down in the target's own frame, whose
// origin is the centre of the target's first marker.
struct PlanePoint {
    double x = 0;
    double y = 0;
    bool operator==(const PlanePoint&) const = default;
};

// A 3x3 homography, row by row, defined up to scale.
using Homography = std::array<std::array<double, 3>, 3>;

}  // namespace loafmark
