#include "frame.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include <opencv2/imgproc.hpp>

#include "analysis/error.h"

namespace loafmark::analysis {
namespace {

// Photo pixels that one frame pixel spans at the frame's middle.
double photo_pixels_per_frame_pixel(const Frame& frame) {
    const cv::Point2d middle(frame.size.width / 2.0, frame.size.height / 2.0);
    const cv::Point2d a = mapped(frame.photo_from_frame, middle);
    const cv::Point2d x = mapped(frame.photo_from_frame, middle + cv::Point2d(1, 0));
    const cv::Point2d y = mapped(frame.photo_from_frame, middle + cv::Point2d(0, 1));
    return std::sqrt(std::abs((x - a).cross(y - a)));
}

// A frame is convex in the photo too: where its corners lie inside, all of it does.
bool lies_inside(cv::Size photo, const Frame& frame) {
    const double right = frame.size.width - 1, bottom = frame.size.height - 1;
    for (const cv::Point2d corner : {cv::Point2d(0, 0), {right, 0}, {right, bottom}, {0, bottom}}) {
        const cv::Vec3d p = frame.photo_from_frame * cv::Vec3d(corner.x, corner.y, 1);
        const cv::Point2d at(p[0] / p[2], p[1] / p[2]);
        if (!(p[2] > 0 && at.x >= 0 && at.y >= 0 && at.x <= photo.width - 1 &&
              at.y <= photo.height - 1))
            return false;
    }
    return true;
}

}  // namespace

Frame frame_round(const Polyline& outline, cv::Point2d down, double margin, double unit_per_pixel,
                  const cv::Matx33d& photo_from_plane) {
    const cv::Point2d right(down.y, -down.x);
    double x0 = std::numeric_limits<double>::infinity(), y0 = x0, x1 = -x0, y1 = -x0;
    for (const cv::Point2d& p : outline) {
        x0 = std::min(x0, p.dot(right));
        x1 = std::max(x1, p.dot(right));
        y0 = std::min(y0, p.dot(down));
        y1 = std::max(y1, p.dot(down));
    }
    x0 -= margin, y0 -= margin, x1 += margin, y1 += margin;
    const double width = (x1 - x0) / unit_per_pixel, height = (y1 - y0) / unit_per_pixel;
    if (width * height > 40e6)
        throw Error("the slice would be a metre wide by this photo's scale",
                    "check that the target was printed at 100 % and lies flat beside the slice");
    Frame frame;
    frame.unit_per_pixel = unit_per_pixel;
    frame.size = {static_cast<int>(std::ceil(width)), static_cast<int>(std::ceil(height))};
    const cv::Point2d origin = x0 * right + y0 * down;
    const double u = unit_per_pixel;
    frame.plane_from_frame = {u * right.x, u * down.x, origin.x, u * right.y, u * down.y, origin.y,
                              0,           0,          1};
    frame.photo_from_frame = photo_from_plane * frame.plane_from_frame;
    return frame;
}

Frame rescaled(const Frame& frame, double unit_per_pixel) {
    const double k = unit_per_pixel / frame.unit_per_pixel;
    // Pixel centres are at integers: the corner, not the centre, of pixel (0, 0) stays in place.
    const cv::Matx33d old_from_new(k, 0, (k - 1) / 2, 0, k, (k - 1) / 2, 0, 0, 1);
    Frame other = frame;
    other.unit_per_pixel = unit_per_pixel;
    other.size = {static_cast<int>(std::ceil(frame.size.width / k)),
                  static_cast<int>(std::ceil(frame.size.height / k))};
    other.plane_from_frame = frame.plane_from_frame * old_from_new;
    other.photo_from_frame = frame.photo_from_frame * old_from_new;
    return other;
}

cv::Mat rectified(const cv::Mat& photo, const Frame& frame) {
    const double shrink = photo_pixels_per_frame_pixel(frame);
    cv::Mat source = photo;
    cv::Matx33d source_from_frame = frame.photo_from_frame;
    if (shrink > 1.3) {
        // Only the part of the photo that the frame shows needs smoothing.
        std::vector<cv::Point2f> corners;
        const auto w = static_cast<double>(frame.size.width);
        const auto h = static_cast<double>(frame.size.height);
        for (const cv::Point2d c : {cv::Point2d(0, 0), {w, 0}, {w, h}, {0, h}})
            corners.push_back(mapped(frame.photo_from_frame, c));
        cv::Rect box = cv::boundingRect(corners);
        box -= cv::Point(8, 8);
        box += cv::Size(16, 16);
        box &= cv::Rect({0, 0}, photo.size());
        if (!box.empty()) {
            cv::GaussianBlur(photo(box), source, {}, 0.35 * shrink);
            const cv::Matx33d moved(1, 0, -box.x, 0, 1, -box.y, 0, 0, 1);
            source_from_frame = moved * source_from_frame;
        }
    }
    cv::Mat result;
    cv::warpPerspective(source, result, source_from_frame, frame.size,
                        cv::INTER_LINEAR | cv::WARP_INVERSE_MAP);
    return result;
}

cv::Mat shown_by(cv::Size photo, const Frame& frame) {
    if (lies_inside(photo, frame)) return cv::Mat::ones(frame.size, CV_8U);
    const cv::Mat everywhere = cv::Mat::ones(photo, CV_8U);
    cv::Mat shown;
    cv::warpPerspective(everywhere, shown, frame.photo_from_frame, frame.size,
                        cv::INTER_NEAREST | cv::WARP_INVERSE_MAP);
    return shown;
}

}  // namespace loafmark::analysis
