// Which plane the slice is measured in, how large a pixel is there, and how sure that is.
#pragma once

#include <optional>
#include <vector>

#include <opencv2/core.hpp>

#include "analysis/measure.h"
#include "find_slices.h"
#include "find_target.h"
#include "photo.h"
#include "target_plane.h"

namespace loafmark::analysis {

// Cells are worked on as if an unscaled slice were this wide; never printed.
inline constexpr double assumed_width_units = 120;
// Most slices lie between these, mm: what hangs on a length is judged for both as well (common
// practice, no source).
inline constexpr double narrow_slice = 80, wide_slice = 200;

// Where the camera stands over the plane, for what it sees of a slice's side.
struct Viewpoint {
    cv::Point2d foot_mm;       // the plane's point square below the camera
    double distance_mm = 0;    // of the camera from the plane
    double side_depth_mm = 0;  // how far the slice reaches below the plane
};

struct WorkingPlane {
    ScaleSource source = ScaleSource::none;
    // Working units in the plane (mm with a scale) to photo pixels.
    cv::Matx33d photo_from_plane = cv::Matx33d::eye();
    std::optional<TargetKind> target;
    double length_error = 0;             // relative standard error of lengths; 0 without a scale
    std::optional<Estimate> height_mm;   // of the plane above the paper
    std::optional<Viewpoint> viewpoint;  // of a slice lying beside a target
    // Before the cut of a loaf standing beside a strip. How deep the loaf is nobody knows: the
    // depth is one that half a loaf has at least.
    std::optional<Viewpoint> front_view;
    std::optional<cv::Vec3d> paper;     // linear light of the target's white paper
    double ratio_error = 0;             // relative standard error of height to width, from the tilt
    std::optional<double> edge_spread;  // of the target's edges, in working units (photo_quality.h)
    std::vector<Warning> warnings;

    [[nodiscard]] bool has_scale() const { return source != ScaleSource::none; }
};

// The plane of a photo with a target. `at` is where the slice lies, in photo pixels.
[[nodiscard]] WorkingPlane plane_from_target(const SeenTarget& target, const Photo& photo,
                                             const MeasureOptions& options, cv::Point2d at);

// The plane of a photo without one: from the known loaf width if given, else with working units.
// The slice's `width_px` is along its base.
[[nodiscard]] WorkingPlane plane_without_target(const MeasureOptions& options, double width_px);

// The same plane with its unit stretched, so that what was `measured` long in it is `known`.
[[nodiscard]] WorkingPlane stretched(WorkingPlane plane, double measured, double known);

}  // namespace loafmark::analysis
