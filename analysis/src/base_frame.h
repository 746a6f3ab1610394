// The loaf's own directions in a frame: along its base line and up from it.
#pragma once

#include <opencv2/core.hpp>

#include "base_line.h"
#include "shape.h"

namespace loafmark::analysis {

struct BaseFrame {
    cv::Point2d middle;       // of the base line, frame pixels
    cv::Point2d along{1, 0};  // unit vector to the right
    cv::Point2d up{0, -1};    // unit vector, square to it
    double unit_per_pixel = 0.1;
    double units_per_mm = 1;  // other than 1 only without a scale, to see what hangs on it
    // Of the loaf, working units; 0: not known (the photo's edge cuts it).
    double height = 0, width = 0;

    // Working units along the base line from its middle, and above it.
    [[nodiscard]] double aside(double x, double y) const {
        return ((x - middle.x) * along.x + (y - middle.y) * along.y) * unit_per_pixel;
    }
    [[nodiscard]] double above(double x, double y) const {
        return ((x - middle.x) * up.x + (y - middle.y) * up.y) * unit_per_pixel;
    }
};

// The whole number next below. std::floor is a call into the library on processors of 2003, for
// which the program is built; for every pixel of a face that is felt.
[[nodiscard]] inline int floored(double value) {
    const int whole = static_cast<int>(value);
    return whole - (value < whole ? 1 : 0);
}

// `shape` in frame pixels; none where it is not known.
[[nodiscard]] inline BaseFrame base_frame(const BaseLine& base, const Shape* shape,
                                          double unit_per_pixel) {
    const cv::Point2d along = (base.right - base.left) / cv::norm(base.right - base.left);
    BaseFrame frame;
    frame.middle = (base.left + base.right) / 2;
    frame.along = along;
    frame.up = {along.y, -along.x};
    frame.unit_per_pixel = unit_per_pixel;
    if (shape) {
        frame.height = shape->height * unit_per_pixel;
        frame.width = shape->width * unit_per_pixel;
    }
    return frame;
}

}  // namespace loafmark::analysis
