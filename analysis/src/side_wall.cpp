#include "side_wall.h"

#include <algorithm>

#include <opencv2/imgproc.hpp>

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

cv::Mat with_side(const cv::Mat& face, const Viewpoint& view, const cv::Matx33d& frame_from_plane) {
    // Every level of the side is the face drawn nearer to the foot; all of them together are what
    // is in sight.
    constexpr int levels = 8;
    const cv::Point2d foot = mapped(frame_from_plane, view.foot_mm);
    cv::Mat bread = face.clone(), level;
    for (int i = 1; i <= levels; ++i) {
        const double nearer =
            view.distance_mm / (view.distance_mm + view.side_depth_mm * i / levels);
        const cv::Matx23d drawn(nearer, 0, (1 - nearer) * foot.x,  //
                                0, nearer, (1 - nearer) * foot.y);
        cv::warpAffine(face, level, drawn, face.size());
        bread = cv::max(bread, level);
    }
    return bread;
}

}  // namespace loafmark::analysis
