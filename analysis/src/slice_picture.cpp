#include "slice_picture.h"

#include <cmath>

#include <opencv2/imgproc.hpp>

#include "paper_white.h"
#include "pictures.h"

namespace loafmark::analysis {
namespace {

// In working units (mm). Small enough to keep by the thousand.
constexpr double unit_per_picture_pixel = 0.25;
constexpr double margin = 3;
// The outline need not be finer than the picture: a third of its pixel.
constexpr double outline_error_px = 0.35;

cv::Rect window_of(const SlicePictureInput& input) {
    const std::vector<cv::Point2f> points(input.outline.begin(), input.outline.end());
    cv::Rect box = cv::boundingRect(points);
    const int around = static_cast<int>(margin / input.unit_per_pixel);
    box -= cv::Point(around, around);
    box += cv::Size(2 * around, around);
    if (input.whole) box.height = static_cast<int>(std::ceil(input.base)) + 1 - box.y;
    return box & cv::Rect({0, 0}, input.rgb.size());
}

// To a tenth of a pixel. A frame's pixel has its middle at whole numbers, a picture's place counts
// from its edge.
std::vector<PicturePoint> outline_in(const SlicePictureInput& input, const cv::Rect& window,
                                     double shrink) {
    std::vector<cv::Point2f> points;
    for (const cv::Point2d& p : input.outline)
        points.emplace_back((p - cv::Point2d(window.tl()) + cv::Point2d(0.5, 0.5)) * shrink);
    std::vector<cv::Point2f> few;
    cv::approxPolyDP(points, few, outline_error_px, true);
    std::vector<PicturePoint> outline;
    for (const cv::Point2f& p : few)
        outline.push_back({std::round(10 * static_cast<double>(p.x)) / 10,
                           std::round(10 * static_cast<double>(p.y)) / 10});
    return outline;
}

}  // namespace

SlicePicture slice_picture(const SlicePictureInput& input) {
    const cv::Rect window = window_of(input);
    const double shrink = input.unit_per_pixel / unit_per_picture_pixel;
    cv::Mat small;
    cv::resize(input.rgb(window), small, {}, shrink, shrink, cv::INTER_AREA);
    if (input.paper) small = balanced_on(small, *input.paper);
    SlicePicture picture;
    picture.picture = picture_of(small);
    if (input.has_scale) picture.mm_per_pixel = MillimetresPerPixel(unit_per_picture_pixel);
    picture.outline = outline_in(input, window, shrink);
    picture.balanced = input.paper.has_value();
    return picture;
}

}  // namespace loafmark::analysis
