#include "shape.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "quantile.h"
#include "side_pinch.h"

namespace loafmark::analysis {
namespace {

// In standard errors of the edge. Two ends, each at one point of the outline, where it bulges most
// and crust is missed first. This and the next were chosen on 352 development slices.
constexpr double width_ends = 2;

// How much of the edge's error is the same all round.
constexpr double rim_share = 0.4;

constexpr std::array numbers{&Shape::height, &Shape::width, &Shape::base_width,
                             &Shape::area,   &Shape::pinch, &Shape::perimeter};

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
    shape.pinch = side_pinch(outline, base);
    shape.area = area_inside(outline);
    shape.perimeter = length_of(smoothed(outline, 2));
    return shape;
}

Shape joined(const Shape& spread, const Shape& other) {
    Shape both;
    for (double Shape::*number : numbers)
        both.*number = std::hypot(spread.*number, other.*number);
    return both;
}

Shape spread_of(const Shape& shape, const std::vector<Shape>& alternatives) {
    Shape spread;
    for (double Shape::*number : numbers) {
        double squares = 0;
        for (const Shape& other : alternatives)
            squares += std::pow(other.*number - shape.*number, 2);
        if (!alternatives.empty())
            spread.*number = std::sqrt(squares / static_cast<double>(alternatives.size()));
    }
    return spread;
}

MeasureValues shape_values(const Shape& shape, const Shape& spread, double length_error,
                           double edge_error) {
    const auto length = [&](double value, double ends, double moved) {
        return with_error(value, std::hypot(value * length_error, ends, moved));
    };
    MeasureValues values;
    // The crown is one point, the base line rests on many.
    values[Measure::loaf_height] = length(shape.height, 1.5 * edge_error, spread.height);
    values[Measure::loaf_width] = length(shape.width, width_ends * edge_error, spread.width);
    // Where the base's corners are round, 2 % of the height above it is reached at a flat angle.
    values[Measure::base_width] = length(shape.base_width, 6 * edge_error, spread.base_width);
    values[Measure::cross_section_area] =
        with_error(shape.area, std::hypot(2 * length_error * shape.area,
                                          shape.perimeter * edge_error * rim_share, spread.area));
    const double ratio = shape.height / shape.width;
    values[Measure::height_to_width] = with_error(
        ratio, ratio * std::hypot(std::hypot(1.5 * edge_error, spread.height) / shape.height,
                                  std::hypot(width_ends * edge_error, spread.width) / shape.width));
    Estimate pinch = length(shape.pinch, std::sqrt(2.0) * edge_error, spread.pinch);
    pinch.low = std::max(0.0, pinch.low);
    values[Measure::side_pinch] = pinch;
    return values;
}

void widen(MeasureValues& values, const MeasureValues& others) {
    for (const auto& [measure, other] : others) {
        const auto found = values.find(measure);
        if (found == values.end()) continue;
        found->second.low = std::min(found->second.low, other.low);
        found->second.high = std::max(found->second.high, other.high);
    }
}

}  // namespace loafmark::analysis
