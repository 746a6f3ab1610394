#include "cell_shapes.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace loafmark::analysis {
namespace {

constexpr double least_axis_ratio = 1.1;  // rounder cells have no direction

}  // namespace

Ellipse ellipse_of(const Region& region, const BaseFrame& frame) {
    // Moments along the base line and up from it.
    const cv::Point2d a = frame.along, u = frame.up;
    const double aa = a.x * a.x * region.xx + 2 * a.x * a.y * region.xy + a.y * a.y * region.yy;
    const double uu = u.x * u.x * region.xx + 2 * u.x * u.y * region.xy + u.y * u.y * region.yy;
    const double au =
        a.x * u.x * region.xx + (a.x * u.y + a.y * u.x) * region.xy + a.y * u.y * region.yy;
    const double middle = (aa + uu) / 2, reach = std::hypot((aa - uu) / 2, au);
    Ellipse ellipse;
    ellipse.axis_ratio = std::sqrt((middle + reach) / std::max(middle - reach, 1e-9));
    if (reach > 0) ellipse.doubled = cv::Point2d((aa - uu) / 2, au) / reach;
    return ellipse;
}

std::optional<CellShapes> cell_shapes(const CellMap& cells, const BaseFrame& frame) {
    double area = 0, ratios = 0, long_area = 0;
    cv::Point2d sum;
    for (std::size_t label = 1; label < cells.counted.size(); ++label) {
        if (!cells.counted[label]) continue;
        const Region& region = cells.regions[label - 1];
        const Ellipse ellipse = ellipse_of(region, frame);
        area += region.pixels;
        ratios += region.pixels * ellipse.axis_ratio;
        if (ellipse.axis_ratio < least_axis_ratio) continue;
        long_area += region.pixels;
        sum += region.pixels * ellipse.doubled;
    }
    if (area <= 0) return std::nullopt;
    CellShapes shapes;
    shapes.axis_ratio = ratios / area;
    if (long_area > 0) {
        const double degrees = std::atan2(sum.y, sum.x) / 2 * 180 / std::numbers::pi;
        shapes.direction = {degrees < 0 ? degrees + 180 : degrees, cv::norm(sum) / long_area};
    }
    return shapes;
}

}  // namespace loafmark::analysis
