// What a camera that stands beside a slice sees of its side, and how to leave it out.
#pragma once

#include "geometry2d.h"
#include "scale.h"

namespace loafmark::analysis {

struct CutFace {
    Polyline outline;
    double widest_side = 0;  // the widest strip of side that was left out, in the outline's units
};

// The outline of the cut face alone, from that of all the bread in sight: the face and the side
// below it on the camera's side. Seen from the camera, a point of the side `d` below the face
// appears nearer to the camera's foot by the factor (distance) / (distance + d), so the part of the
// outline that faces the foot is the side's lower edge, and lies that much too near. Without a
// viewpoint, or with its foot beneath the slice, nothing changes. `frame_from_plane`: the outline's
// frame from mm.
[[nodiscard]] CutFace without_side(const Polyline& outline, const std::optional<Viewpoint>& view,
                                   const cv::Matx33d& frame_from_plane);

// The other way round, for a map of how sure each of the frame's pixels is of the cut face: how
// sure it is of bread in sight, face or side.
[[nodiscard]] cv::Mat with_side(const cv::Mat& face, const Viewpoint& view,
                                const cv::Matx33d& frame_from_plane);

// The same for a mask of the cut face (CV_8U, 0 or not): what is bread in sight by more than half a
// pixel, 255 or 0.
[[nodiscard]] cv::Mat mask_with_side(const cv::Mat& mask, const Viewpoint& view,
                                     const cv::Matx33d& frame_from_plane);

}  // namespace loafmark::analysis
