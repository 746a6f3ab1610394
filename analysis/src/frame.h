// The rectified frame in which a slice is measured: square pixels of known size, base down.
#pragma once

#include <opencv2/core.hpp>

#include "geometry2d.h"

namespace loafmark::analysis {

// Working units are millimetres in the plane of the cut face; without a scale they are such that
// the slice is 120 wide, and nothing of them is printed as mm.
struct Frame {
    double unit_per_pixel = 0.1;
    cv::Size size;
    cv::Matx33d plane_from_frame;  // frame pixels to working units in the plane
    cv::Matx33d photo_from_frame;  // frame pixels to photo pixels
};

// A frame that holds `outline` (working units in the plane) with `margin` units around, turned so
// that `down` points to its lower edge. Throws Error when it would exceed 40 megapixels.
[[nodiscard]] Frame frame_round(const Polyline& outline, cv::Point2d down, double margin,
                                double unit_per_pixel, const cv::Matx33d& photo_from_plane);

// The same frame at another pixel size.
[[nodiscard]] Frame rescaled(const Frame& frame, double unit_per_pixel);

// The photo as seen in the frame, CV_8UC3; outside the photo black. Photos finer than the frame are
// smoothed first, so that nothing aliases.
[[nodiscard]] cv::Mat rectified(const cv::Mat& photo, const Frame& frame);

// Which of the frame's pixels a photo of that size shows: CV_8U, 1 or 0.
[[nodiscard]] cv::Mat shown_by(cv::Size photo, const Frame& frame);

}  // namespace loafmark::analysis
