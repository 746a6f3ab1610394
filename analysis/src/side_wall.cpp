#include "side_wall.h"

#include <algorithm>

namespace loafmark::analysis {

CutFace without_side(const Polyline& outline, const std::optional<Viewpoint>& view,
                     const cv::Matx33d& frame_from_plane) {
    CutFace face{outline, 0};
    if (!view) return face;
    const cv::Point2d foot = mapped(frame_from_plane, view->foot_mm);
    const double away = (view->distance_mm + view->side_depth_mm) / view->distance_mm;
    // Normals of a smoothed outline: a dent must not turn its flank towards the camera.
    const Polyline normals = outward_normals(smoothed(outline, 10));
    for (std::size_t i = 0; i < outline.size(); ++i) {
        if ((foot - outline[i]).dot(normals[i]) <= 0) continue;
        face.outline[i] = foot + away * (outline[i] - foot);
        const double strip = (outline[i] - face.outline[i]).dot(normals[i]);
        face.widest_side = std::max(face.widest_side, strip);
    }
    return face;
}

}  // namespace loafmark::analysis
