#include "face_outline.h"

#include <cmath>
#include <optional>

#include <opencv2/imgproc.hpp>

#include "contours.h"
#include "pictures.h"
#include "refine_outline.h"
#include "side_wall.h"

namespace loafmark::analysis {
namespace {

// All in working units (mm).
constexpr double point_step = 0.5;
constexpr double rough_error = 0.5;
// Standard error of the strip of side left out, as a share of its width: how much of the side was
// in sight is known less well than an edge.
constexpr double side_share = 0.2;
// Where nobody knows where the camera stood, a strip of side may pass for the face: on development
// photos of standing loaves 1 mm too much in the median, hence this standard error.
constexpr double unknown_side = 0.7;
// Where the camera is known to see a side of unknown depth, the network alone keeps it out: so much
// was it off on development photos.
constexpr double side_behind_error = 0.5;

class FaceFinder {
  public:
    FaceFinder(const FoundSlice& found, const WorkingPlane& plane, const Frame& frame)
        : found_(found),
          plane_(plane),
          frame_from_plane_(frame.plane_from_frame.inv()),
          frame_(frame) {}

    FaceOutline run(const cv::Mat& rgb, const Polyline& rough, double unit_per_pixel) const {
        const cv::Mat bread = bread_in_sight();
        const RefinedOutline refined =
            refine_outline(rgb, rough_bread(rough, bread), unit_per_pixel, bread, side_behind());
        const CutFace face = without_side(refined.outline, plane_.viewpoint, frame_from_plane_);
        FaceOutline result;
        result.outline = resampled(face.outline, point_step / unit_per_pixel);
        for (const Polyline& other : refined.alternatives)
            result.by_weights.push_back(
                without_side(other, plane_.viewpoint, frame_from_plane_).outline);
        if (face.widest_side > 0)
            for (const double share : {1 - side_share, 1 + side_share})
                result.by_side.push_back(without_share_of_side(refined.outline, share));
        result.edge_error = std::hypot(refined.uncertainty, side_error());
        return result;
    }

  private:
    // How sure each of the frame's pixels is of bread, face or side; empty where the search said
    // nothing.
    [[nodiscard]] cv::Mat bread_in_sight() const {
        if (found_.face.empty()) return {};
        const cv::Matx33d face_from_frame = found_.photo_from_face.inv() * frame_.photo_from_frame;
        cv::Mat face;
        cv::warpPerspective(found_.face, face, face_from_frame, frame_.size,
                            cv::INTER_LINEAR | cv::WARP_INVERSE_MAP);
        if (!plane_.viewpoint) return face;
        return with_side(face, *plane_.viewpoint, frame_from_plane_);
    }

    // The rough outline with the side that is in sight.
    [[nodiscard]] Polyline rough_bread(const Polyline& rough, const cv::Mat& bread) const {
        if (bread.empty() || !plane_.viewpoint) return rough;
        // Other slices may lie in the frame.
        const Contour contour = largest_contour(
            mask_with_side(filled(rough, frame_.size), *plane_.viewpoint, frame_from_plane_));
        return {contour.begin(), contour.end()};
    }

    [[nodiscard]] Polyline without_share_of_side(const Polyline& bread, double share) const {
        Viewpoint view = *plane_.viewpoint;
        view.side_depth_mm *= share;
        return without_side(bread, view, frame_from_plane_).outline;
    }

    [[nodiscard]] double side_error() const {
        if (plane_.viewpoint) return 0;
        return plane_.front_view && !found_.face.empty() ? side_behind_error : unknown_side;
    }

    // The side of a standing loaf, where the camera's place is known.
    [[nodiscard]] std::optional<SideBehind> side_behind() const {
        if (!plane_.front_view) return std::nullopt;
        const Viewpoint& view = *plane_.front_view;
        return SideBehind{mapped(frame_from_plane_, view.foot_mm),
                          view.side_depth_mm / (view.distance_mm + view.side_depth_mm)};
    }

    const FoundSlice& found_;
    const WorkingPlane& plane_;
    cv::Matx33d frame_from_plane_;
    const Frame& frame_;
};

}  // namespace

FaceOutline face_outline(const cv::Mat& rgb, const Polyline& rough, const FoundSlice& found,
                         const WorkingPlane& plane, const Frame& frame, double unit_per_pixel) {
    if (found.cut_by_frame)
        return {resampled(rough, point_step / unit_per_pixel), {}, {}, rough_error};
    return FaceFinder(found, plane, frame).run(rgb, rough, unit_per_pixel);
}

}  // namespace loafmark::analysis
