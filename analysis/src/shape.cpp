#include "shape.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace loafmark::analysis {
namespace {

constexpr double z95 = 1.959963984540054;

Estimate with_error(double value, double sigma) {
    return {value, value - z95 * sigma, value + z95 * sigma, {}, {}};
}

}  // namespace

Shape shape_of(const Polyline& outline, const BaseLine& base) {
    const cv::Point2d along = (base.right - base.left) / cv::norm(base.right - base.left);
    const cv::Point2d up(along.y, -along.x);
    Shape shape;
    double left = std::numeric_limits<double>::infinity(), right = -left;
    for (const cv::Point2d& p : outline) {
        const double height = (p - base.left).dot(up);
        const double x = (p - base.left).dot(along);
        left = std::min(left, x);
        right = std::max(right, x);
        if (height > shape.height) {
            shape.height = height;
            shape.crown = p;
            shape.crown_foot = p - height * up;
        }
    }
    shape.width = right - left;
    double base_left = std::numeric_limits<double>::infinity(), base_right = -base_left;
    for (const cv::Point2d& p : outline) {
        if ((p - base.left).dot(up) >= 0.02 * shape.height) continue;
        base_left = std::min(base_left, (p - base.left).dot(along));
        base_right = std::max(base_right, (p - base.left).dot(along));
    }
    shape.base_width = std::max(0.0, base_right - base_left);
    shape.area = area_inside(outline);
    shape.perimeter = length_of(smoothed(outline, 2));
    return shape;
}

MeasureValues shape_values(const Shape& shape, double length_error, double edge_error) {
    const auto length = [&](double value, double ends) {
        return with_error(value, std::hypot(value * length_error, ends));
    };
    MeasureValues values;
    // The crown is one point, the base line rests on many.
    values[Measure::loaf_height] = length(shape.height, 1.5 * edge_error);
    values[Measure::loaf_width] = length(shape.width, std::sqrt(2.0) * edge_error);
    // Where the base's corners are round, 2 % of the height above it is reached at a flat angle.
    values[Measure::base_width] = length(shape.base_width, 6 * edge_error);
    values[Measure::cross_section_area] = with_error(
        shape.area, std::hypot(2 * length_error * shape.area, shape.perimeter * edge_error * 0.7));
    const double ratio = shape.height / shape.width;
    values[Measure::height_to_width] = with_error(
        ratio, ratio * edge_error * std::hypot(1.5 / shape.height, std::sqrt(2.0) / shape.width));
    return values;
}

}  // namespace loafmark::analysis
