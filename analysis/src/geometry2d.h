// Small plane geometry shared by the stages: closed polylines and homographies.
#pragma once

#include <vector>

#include <opencv2/core.hpp>

namespace loafmark::analysis {

using Polyline = std::vector<cv::Point2d>;

// The point `p` mapped by homography `b_from_a`.
[[nodiscard]] cv::Point2d mapped(const cv::Matx33d& b_from_a, cv::Point2d p);
[[nodiscard]] Polyline mapped(const cv::Matx33d& b_from_a, const Polyline& line);

// `p` in the frame, turned about the origin only, whose y axis is the unit vector `down`.
[[nodiscard]] cv::Point2d turned_down(cv::Point2d p, cv::Point2d down);
[[nodiscard]] Polyline turned_down(const Polyline& line, cv::Point2d down);

// Area inside a closed polyline, positive whichever way it runs.
[[nodiscard]] double area_inside(const Polyline& closed);

[[nodiscard]] double length_of(const Polyline& closed);

// The closed polyline again, with points about `step` apart.
[[nodiscard]] Polyline resampled(const Polyline& closed, double step);

// Each point replaced by the Gaussian-weighted mean of its neighbours along the line; `sigma` in
// points. Shrinks curves slightly, as any smoothing does.
[[nodiscard]] Polyline smoothed(const Polyline& closed, double sigma);

// Unit normals pointing out of the closed polyline, one a point.
[[nodiscard]] Polyline outward_normals(const Polyline& closed);

// 1 inside the closed polyline, 0 outside; CV_8U of `size`.
[[nodiscard]] cv::Mat filled(const Polyline& closed, cv::Size size);

}  // namespace loafmark::analysis
