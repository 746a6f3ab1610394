#include "side_wall.h"

#include <algorithm>
#include <array>

#include <opencv2/imgproc.hpp>

namespace loafmark::analysis {
namespace {

// Every level of the side is the face drawn nearer to the foot; all of them together are what is in
// sight.
std::array<cv::Matx23d, 8> levels_of_side(const Viewpoint& view,
                                          const cv::Matx33d& frame_from_plane) {
    const cv::Point2d foot = mapped(frame_from_plane, view.foot_mm);
    std::array<cv::Matx23d, 8> levels;
    for (std::size_t i = 0; i < levels.size(); ++i) {
        const double depth =
            view.side_depth_mm * static_cast<double>(i + 1) / static_cast<double>(levels.size());
        const double nearer = view.distance_mm / (view.distance_mm + depth);
        levels[i] = {nearer, 0,      (1 - nearer) * foot.x,  //
                     0,      nearer, (1 - nearer) * foot.y};
    }
    return levels;
}

}  // namespace

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
    cv::Mat bread = face.clone(), level;
    for (const cv::Matx23d& drawn : levels_of_side(view, frame_from_plane)) {
        cv::warpAffine(face, level, drawn, face.size());
        cv::max(bread, level, bread);
    }
    return bread;
}

cv::Mat mask_with_side(const cv::Mat& mask, const Viewpoint& view,
                       const cv::Matx33d& frame_from_plane) {
    // In bytes, which are drawn several times faster than floats. Of what is no bread, since its
    // share in 255ths, rounded, is below 128 exactly where it is below one half.
    const cv::Mat ground = mask == 0;
    cv::Mat left = ground.clone(), level;
    for (const cv::Matx23d& drawn : levels_of_side(view, frame_from_plane)) {
        cv::warpAffine(ground, level, drawn, ground.size(), cv::INTER_LINEAR, cv::BORDER_CONSTANT,
                       255);
        cv::min(left, level, left);
    }
    return left < 128;
}

}  // namespace loafmark::analysis
