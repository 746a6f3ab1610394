// From the target's markers to the plane of the cut face: camera pose, and the homography of the
// plane that lies one slice thickness above the paper.
#pragma once

#include <optional>
#include <vector>

#include <opencv2/core.hpp>

#include "find_target.h"

namespace loafmark::analysis {

// An ideal pinhole camera with its principal point in the middle of the photo.
struct Lens {
    double focal_px = 0;
    bool from_exif = false;  // else assumed, and estimated from the target as far as that goes
};

// EXIF's 35 mm equivalent is by the frame's diagonal, 43.27 mm.
[[nodiscard]] Lens lens_of(std::optional<double> focal_length_35mm, cv::Size photo);

// The paper's place before the camera: x_in_camera = rotation * x_on_paper + translation, in mm.
// Paper: x right, y down, z into the table, so that a cut face lies at z = -height.
struct PaperPose {
    cv::Matx33d rotation;
    cv::Vec3d translation;
    Lens lens;
    cv::Size photo;
    double residual_px = 0;  // root mean square distance of the seen corners from the fitted ones
    double tilt_deg = 0;     // between the view through the photo's middle and the paper's normal
};

// Fits the pose to the markers' corners (Collins and Bartoli 2014, "Infinitesimal plane-based pose
// estimation", then least squares). `print_scale` is printed length / nominal length. Throws
// cv::Exception only on impossible input.
[[nodiscard]] PaperPose paper_pose(const SeenTarget& target, Lens lens, cv::Size photo,
                                   double print_scale);

// Plane coordinates in mm at `height_mm` above the paper to photo pixels.
[[nodiscard]] cv::Matx33d photo_from_plane(const PaperPose& pose, double height_mm);

// Distance of the camera from the paper, along the paper's normal, in mm.
[[nodiscard]] double camera_height_mm(const PaperPose& pose);

// The point of the paper square below the camera, in mm.
[[nodiscard]] cv::Point2d camera_foot_mm(const PaperPose& pose);

// Millimetres a photo pixel spans at `at` in the plane, the geometric mean of both directions.
[[nodiscard]] double mm_per_pixel_at(const cv::Matx33d& photo_from_plane, cv::Point2d at);

// Relative standard error of lengths around `at` (mm, in the plane at height_mm), from the corners'
// scatter: refits with corners moved at random by their own residual, never less than 0.25 px.
[[nodiscard]] double scale_error_from_corners(const SeenTarget& target, const PaperPose& pose,
                                              double height_mm, cv::Point2d at, double print_scale);

}  // namespace loafmark::analysis
