#include <algorithm>
#include <cmath>
#include <numeric>

#include "phantoms/truth.h"

namespace loafmark::phantoms {

namespace {

double cross(PlanePoint o, PlanePoint a, PlanePoint b) {
    return (a.x - o.x) * (b.y - o.y) - (a.y - o.y) * (b.x - o.x);
}

// The corners of the convex hull, as places in the list, once round: Andrew's monotone chain.
std::vector<std::size_t> convex_hull(const std::vector<PlanePoint>& points) {
    std::vector<std::size_t> order(points.size()), hull;
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        const PlanePoint p = points[a], q = points[b];
        return p.x != q.x ? p.x < q.x : p.y < q.y;
    });
    for (const bool back : {false, true}) {
        const std::size_t start = hull.size();
        for (const std::size_t at : order) {
            while (hull.size() >= start + 2 &&
                   cross(points[hull[hull.size() - 2]], points[hull.back()], points[at]) <= 0)
                hull.pop_back();
            hull.push_back(at);
        }
        hull.pop_back();
        if (!back) std::reverse(order.begin(), order.end());
    }
    return hull;
}

// From the crown down to the base, forwards or backwards along the outline.
std::vector<PlanePoint> side_of(const std::vector<PlanePoint>& outline, bool forwards) {
    const auto crown = std::min_element(outline.begin(), outline.end(),
                                        [](PlanePoint a, PlanePoint b) { return a.y < b.y; });
    const std::size_t n = outline.size();
    auto at = static_cast<std::size_t>(crown - outline.begin());
    std::vector<PlanePoint> side;
    constexpr double on_base_mm = 0.01;
    for (std::size_t i = 0; i < n; ++i, at = (at + (forwards ? 1 : n - 1)) % n) {
        side.push_back(outline[at]);
        if (outline[at].y > -on_base_mm) break;
    }
    return side;
}

// The greatest distance of the side from those edges of its hull that are steeper than 45 degrees.
double deepest_dent(const std::vector<PlanePoint>& side) {
    const std::vector<std::size_t> hull = convex_hull(side);
    double deepest = 0;
    for (std::size_t i = 0; i < hull.size(); ++i) {
        const auto [from, to] = std::minmax(hull[i], hull[(i + 1) % hull.size()]);
        if (from == 0 && to + 1 == side.size()) continue;  // closes the hull inside the loaf
        const PlanePoint a = side[from], b = side[to];
        const double dx = b.x - a.x, dy = b.y - a.y;
        if (std::abs(dy) <= std::abs(dx)) continue;
        for (std::size_t k = from + 1; k < to; ++k)
            deepest = std::max(deepest, std::abs(cross(a, b, side[k])) / std::hypot(dx, dy));
    }
    return deepest;
}

double side_pinch(const std::vector<PlanePoint>& outline) {
    return std::max(deepest_dent(side_of(outline, true)), deepest_dent(side_of(outline, false)));
}

}  // namespace

TrueMeasures outline_measures(const std::vector<PlanePoint>& outline) {
    double left = 1e9, right = -1e9, top = 0, twice_area = 0;
    for (std::size_t i = 0, j = outline.size() - 1; i < outline.size(); j = i++) {
        left = std::min(left, outline[i].x);
        right = std::max(right, outline[i].x);
        top = std::max(top, -outline[i].y);
        twice_area += outline[j].x * outline[i].y - outline[i].x * outline[j].y;
    }
    double base_left = 1e9, base_right = -1e9;
    for (const PlanePoint& p : outline)
        if (-p.y < 0.02 * top) {
            base_left = std::min(base_left, p.x);
            base_right = std::max(base_right, p.x);
        }
    return {{Measure::loaf_height, top},
            {Measure::loaf_width, right - left},
            {Measure::base_width, base_right - base_left},
            {Measure::cross_section_area, std::abs(twice_area) / 2},
            {Measure::height_to_width, top / (right - left)},
            {Measure::side_pinch, side_pinch(outline)}};
}

}  // namespace loafmark::phantoms
