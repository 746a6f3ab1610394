// The outline of a slice's cut face, without what is in sight of its side, and how well it is
// known.
#pragma once

#include <vector>

#include <opencv2/core.hpp>

#include "find_slices.h"
#include "frame.h"
#include "geometry2d.h"
#include "scale.h"

namespace loafmark::analysis {

// Lines in the frame's pixels.
struct FaceOutline {
    Polyline outline;                  // points 0.5 working units apart
    std::vector<Polyline> by_weights;  // where other weights of the same evidence place it
    std::vector<Polyline> by_side;     // with less, and with more, of the side left out
    double edge_error = 0;             // standard error of its place beside these, working units
};

// `rgb`: the frame's picture, CV_8UC3; `rough`: the outline found, in its pixels. A slice that the
// photo's edge cuts keeps its rough outline.
[[nodiscard]] FaceOutline face_outline(const cv::Mat& rgb, const Polyline& rough,
                                       const FoundSlice& found, const WorkingPlane& plane,
                                       const Frame& frame, double unit_per_pixel);

}  // namespace loafmark::analysis
