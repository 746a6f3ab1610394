#include "phantoms/outline.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "parallel.h"
#include "phantoms/random.h"

namespace loafmark::phantoms {

namespace {

constexpr double pi = std::numbers::pi;

double signed_power(double v, double power) {
    return std::copysign(std::pow(std::abs(v), power), v);
}

// Half-width at height share h of a free-form loaf, drawn in below its widest place.
double free_half_width(const LoafShape& shape, double t) {
    return shape.width_mm / 2 * signed_power(std::cos(t), 2 / shape.dome_power);
}

// The upper contour from the base's right end over the crown to its left end; y grows upwards.
std::vector<PlanePoint> free_form_contour(const LoafShape& shape) {
    std::vector<PlanePoint> points;
    constexpr int n = 360;
    const double belly = 0.24;  // height share of the widest place
    for (int i = 0; i <= n; ++i) {
        const double t = pi * i / n;
        const double x = free_half_width(shape, t);
        const double rise = std::pow(std::sin(t), 2 / shape.dome_power);
        points.push_back({x, shape.height_mm * (belly + (1 - belly) * rise)});
    }
    // Below the belly the sides curve in towards the base.
    std::vector<PlanePoint> closed;
    const double draw_in = (1 - shape.base_share) * shape.width_mm / 2;
    constexpr int m = 24;
    const auto under = [&](double share, double sign) {
        const double fall = std::sqrt(std::max(0.0, 1 - (1 - share) * (1 - share)));
        return PlanePoint{sign * (shape.width_mm / 2 - draw_in * (1 - fall)),
                          shape.height_mm * belly * share};
    };
    for (int i = 0; i < m; ++i)
        closed.push_back(under(static_cast<double>(i) / m, 1));
    closed.insert(closed.end(), points.begin(), points.end());
    for (int i = m - 1; i >= 0; --i)
        closed.push_back(under(static_cast<double>(i) / m, -1));
    return closed;
}

std::vector<PlanePoint> tin_contour(const LoafShape& shape) {
    const double base = shape.base_share * shape.width_mm / 2, half = shape.width_mm / 2;
    const double rim = base + (half - base) * 0.75;  // the tin's inside at its rim
    const double side = shape.side_share * shape.height_mm, dome = shape.height_mm - side;
    const double corner = 3;
    std::vector<PlanePoint> right;
    for (int i = 0; i <= 8; ++i) {
        const double a = pi / 2 * i / 8;
        right.push_back({base - corner + corner * std::sin(a), corner - corner * std::cos(a)});
    }
    for (int i = 1; i < 100; ++i) {
        const double share = i / 100.0;
        const double dent = shape.waist_mm * std::sin(pi * share) * std::sin(pi * share);
        const double over = (half - rim) * std::pow(share, 10);
        right.push_back(
            {base + (rim - base) * share - dent + over, corner + (side - corner) * share});
    }
    std::vector<PlanePoint> closed = right;
    constexpr int n = 240;
    for (int i = 0; i <= n; ++i) {
        const double t = pi * i / n;
        closed.push_back({half * signed_power(std::cos(t), 2 / shape.dome_power),
                          side + dome * std::pow(std::sin(t), 2 / shape.dome_power)});
    }
    for (auto p = right.rbegin(); p != right.rend(); ++p)
        closed.push_back({-p->x, p->y});
    return closed;
}

// A score's lip: a ridge that rises steeply on one side and runs out on the other.
double ear(const LoafShape& shape, double x) {
    if (shape.ear_mm <= 0) return 0;
    const double at = (unit_float(hash32(shape.seed, 5)) - 0.5) * 0.4 * shape.width_mm;
    const double d = (x - at) / (0.06 * shape.width_mm);
    const double lip = d < 0 ? std::exp(-0.15 * d * d) : std::exp(-4 * d * d);
    return shape.ear_mm * (lip - 0.45 * std::exp(-(d - 1.6) * (d - 1.6)));
}

PlanePoint roughened(const LoafShape& shape, PlanePoint p) {
    const float x = static_cast<float>(p.x), y = static_cast<float>(p.y);
    const double height_share = std::clamp(p.y / 6.0, 0.0, 1.0);
    const double amount = shape.roughness_mm * height_share;
    const Vec3 wide = vector_noise({x / 28, y / 28, 0.5f}, shape.seed + 1);
    const Vec3 mid = vector_noise({x / 9, y / 9, 1.5f}, shape.seed + 2);
    const Vec3 fine = vector_noise({x / 2.2f, y / 2.2f, 2.5f}, shape.seed + 3);
    return {p.x + amount * (2.2 * wide.x + 1.0 * mid.x + 0.35 * fine.x),
            p.y + amount * (1.8 * wide.y + 1.0 * mid.y + 0.35 * fine.y)};
}

double squared_distance(PlanePoint p, PlanePoint a, PlanePoint b) {
    const double ux = b.x - a.x, uy = b.y - a.y;
    const double l2 = ux * ux + uy * uy;
    const double t =
        l2 > 0 ? std::clamp(((p.x - a.x) * ux + (p.y - a.y) * uy) / l2, 0.0, 1.0) : 0.0;
    const double dx = p.x - a.x - t * ux, dy = p.y - a.y - t * uy;
    return dx * dx + dy * dy;
}

struct Nearest {
    double any = 1e9;
    double not_base = 1e9;
};

// Distances to a closed polygon. Runs of edges far from a point are passed over by the ball around
// them.
class Edges {
  public:
    explicit Edges(const std::vector<PlanePoint>& polygon) : polygon_(polygon) {
        for (std::size_t from = 0; from < polygon.size(); from += run) {
            const std::size_t to = std::min(from + run, polygon.size());
            Ball ball{point((from + to) / 2), 0};
            for (std::size_t i = from; i <= to; ++i)
                ball.radius = std::max(ball.radius, std::hypot(point(i).x - ball.centre.x,
                                                               point(i).y - ball.centre.y));
            balls_.push_back(ball);
        }
    }
    [[nodiscard]] Nearest nearest(PlanePoint p) const {
        double any = 1e18, not_base = 1e18;  // squared
        for (std::size_t b = 0; b < balls_.size(); ++b) {
            const double to_centre = std::hypot(p.x - balls_[b].centre.x, p.y - balls_[b].centre.y);
            const double least = std::max(0.0, to_centre - balls_[b].radius);
            if (least * least > not_base) continue;
            for (std::size_t i = b * run; i < std::min((b + 1) * run, polygon_.size()); ++i) {
                const double d = squared_distance(p, point(i), point(i + 1));
                any = std::min(any, d);
                if (point(i).y < -0.5 || point(i + 1).y < -0.5) not_base = std::min(not_base, d);
            }
        }
        return {std::sqrt(any), std::sqrt(not_base)};
    }
    [[nodiscard]] bool hold(PlanePoint p) const {
        bool in = false;
        for (std::size_t i = 0; i < polygon_.size(); ++i) {
            const PlanePoint a = point(i), b = point(i + 1);
            if ((a.y > p.y) != (b.y > p.y) && p.x < (b.x - a.x) * (p.y - a.y) / (b.y - a.y) + a.x)
                in = !in;
        }
        return in;
    }

  private:
    struct Ball {
        PlanePoint centre;
        double radius;
    };
    static constexpr std::size_t run = 16;
    [[nodiscard]] PlanePoint point(std::size_t i) const { return polygon_[i % polygon_.size()]; }
    const std::vector<PlanePoint>& polygon_;
    std::vector<Ball> balls_;
};

PlaneSample loaf_sample(const Edges& edges, const CrustShape& crust, PlanePoint p) {
    const Nearest d = edges.nearest(p);
    const CrustDepth depth = crust_depth(crust, p);
    const double sign = edges.hold(p) ? 1 : -1;
    const double past_top = sign * d.not_base - depth.top, past_base = -p.y - depth.base;
    const bool base_nearer = past_base < past_top;
    return {static_cast<float>(-sign * d.any), static_cast<float>(std::min(past_top, past_base)),
            static_cast<float>(base_nearer ? depth.base : depth.top)};
}

}  // namespace

std::vector<PlanePoint> loaf_outline(const LoafShape& shape) {
    const auto smooth = shape.form == LoafForm::tin ? tin_contour(shape) : free_form_contour(shape);
    std::vector<PlanePoint> outline;
    for (const PlanePoint& p : smooth) {
        const double share = p.y / shape.height_mm;
        const double shifted = p.x + shape.lean * 0.12 * shape.width_mm * share * share;
        const double raised = p.y + ear(shape, p.x) * std::pow(std::max(0.0, share), 4);
        const PlanePoint rough = roughened(shape, {shifted, raised});
        outline.push_back({rough.x, -std::max(0.0, rough.y)});
    }
    return outline;
}

CrustDepth crust_depth(const CrustShape& crust, PlanePoint p) {
    const float x = static_cast<float>(p.x), y = static_cast<float>(p.y);
    const double uneven =
        1 + crust.unevenness * (0.7 * value_noise({x / 16, y / 16, 0.5f}, crust.seed) +
                                0.5 * value_noise({x / 4, y / 4, 1.5f}, crust.seed + 1));
    return {crust.top_mm * uneven, crust.base_mm * uneven};
}

PlaneFields PlaneFieldGrid::view() const {
    return {nodes.data(),
            nx,
            ny,
            static_cast<float>(x0),
            static_cast<float>(y0),
            static_cast<float>(step)};
}

PlaneFieldGrid loaf_fields(const std::vector<PlanePoint>& outline, const CrustShape& crust,
                           int threads) {
    constexpr double margin = 3;
    PlanePoint low{1e9, 1e9}, high{-1e9, -1e9};
    for (const PlanePoint& p : outline) {
        low = {std::min(low.x, p.x), std::min(low.y, p.y)};
        high = {std::max(high.x, p.x), std::max(high.y, p.y)};
    }
    PlaneFieldGrid grid;
    grid.x0 = low.x - margin;
    grid.y0 = low.y - margin;
    grid.nx = static_cast<int>((high.x - low.x + 2 * margin) / grid.step) + 2;
    grid.ny = static_cast<int>((high.y - low.y + 2 * margin) / grid.step) + 2;
    grid.nodes.resize(static_cast<std::size_t>(grid.nx) * grid.ny);
    const Edges edges(outline);
    parallel_for(grid.ny, threads, [&](int j) {
        for (int i = 0; i < grid.nx; ++i)
            grid.nodes[static_cast<std::size_t>(j) * grid.nx + i] =
                loaf_sample(edges, crust, {grid.x0 + i * grid.step, grid.y0 + j * grid.step});
    });
    return grid;
}

PlaneFieldGrid patch_fields(double left, double top, double width, double height) {
    PlaneFieldGrid grid;
    grid.step = 1;
    grid.x0 = left;
    grid.y0 = top;
    grid.nx = static_cast<int>(std::ceil(width)) + 1;
    grid.ny = static_cast<int>(std::ceil(height)) + 1;
    grid.nodes.assign(static_cast<std::size_t>(grid.nx) * grid.ny, PlaneSample{-1000, 1000, 2});
    return grid;
}

}  // namespace loafmark::phantoms
