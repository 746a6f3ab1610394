#include "crumb.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include <opencv2/imgproc.hpp>

#include "colour.h"
#include "quantile.h"

namespace loafmark::analysis {
namespace {

// All in working units (mm).
constexpr double ray_step = 0.5;
constexpr double depth_step = 0.1;
constexpr double deepest = 10;    // no crust is thicker
constexpr double averaging = 10;  // along the outline
// The crust's own lightness is read from the first depth to the second, where it differs most from
// the crumb's: nearer to the edge the photo's blur mixes in the ground.
constexpr double crust_from = 0.3, crust_to = 0.8;
constexpr double softening = 0.4;  // half the running mean's length, in depth
// The crumb's own lightness, beside each stretch of crust, is read from here to the rays' ends.
constexpr double crumb_from = 6;
constexpr float least_contrast = 4;  // L*: a crust that differs less from the crumb is not seen
// Cells are darker than the bread between them. Of the samples along a stretch of one depth this
// quantile lies on bread, and needs no cell finder, to which a dark crust looks like a cell.
constexpr double solid_quantile = 0.7;

// Inward rays: lightness, one row a ray, one column a depth.
struct Rays {
    cv::Mat lightness;  // CV_32F
    Polyline points, normals;
};

Rays sample_rays(const cv::Mat& lightness, const Polyline& outline, double unit_per_pixel) {
    Rays rays;
    rays.points = resampled(outline, ray_step / unit_per_pixel);
    rays.normals = outward_normals(smoothed(rays.points, 2));
    const int columns = static_cast<int>(deepest / depth_step);
    cv::Mat map(static_cast<int>(rays.points.size()), columns, CV_32FC2);
    for (int r = 0; r < map.rows; ++r)
        for (int c = 0; c < columns; ++c) {
            const cv::Point2d p =
                rays.points[static_cast<std::size_t>(r)] -
                (c * depth_step / unit_per_pixel) * rays.normals[static_cast<std::size_t>(r)];
            map.at<cv::Vec2f>(r, c) = {static_cast<float>(p.x), static_cast<float>(p.y)};
        }
    cv::remap(lightness, rays.lightness, map, cv::noArray(), cv::INTER_LINEAR,
              cv::BORDER_REPLICATE);
    return rays;
}

// Running mean in depth: a speck of flour or bran is no end of the crust. What lies nearer to the
// edge than crust_from is left out, since the ground shines in there.
std::vector<float> softened(const std::vector<float>& profile) {
    const auto half = static_cast<std::ptrdiff_t>(softening / depth_step);
    const auto from = static_cast<std::ptrdiff_t>(crust_from / depth_step);
    const auto to = static_cast<std::ptrdiff_t>(profile.size());
    std::vector<float> soft(profile);
    for (auto c = std::max<std::ptrdiff_t>(0, from - half); c < to; ++c) {
        float sum = 0, n = 0;
        for (auto k = std::max(from, c - half); k < std::min(to, c + half + 1); ++k)
            sum += profile[static_cast<std::size_t>(k)], n += 1;
        soft[static_cast<std::size_t>(c)] = sum / n;
    }
    return soft;
}

// The lightness of solid bread at each depth of ray `ray`, from the rays round it.
std::vector<float> solid_profile(const cv::Mat& lightness, int ray) {
    const int half = static_cast<int>(averaging / ray_step / 2);
    std::vector<float> profile(static_cast<std::size_t>(lightness.cols)), window;
    for (int c = 0; c < lightness.cols; ++c) {
        window.clear();
        for (int k = -half; k <= half; ++k)
            window.push_back(lightness.at<float>(
                ((ray + k) % lightness.rows + lightness.rows) % lightness.rows, c));
        profile[static_cast<std::size_t>(c)] = quantile_of(window, solid_quantile);
    }
    return softened(profile);
}

// Depth of the crust on one ray, in working units; none where it does not stand out.
std::optional<double> crust_depth(const std::vector<float>& profile) {
    const auto column = [](double depth) {
        return static_cast<std::ptrdiff_t>(depth / depth_step);
    };
    std::vector<float> inner(profile.begin() + column(crumb_from), profile.end());
    const float crumb = quantile_of(inner, 0.5);
    float crust = crumb;
    for (auto c = column(crust_from); c <= column(crust_to); ++c)
        if (std::abs(profile[static_cast<std::size_t>(c)] - crumb) > std::abs(crust - crumb))
            crust = profile[static_cast<std::size_t>(c)];
    if (std::abs(crumb - crust) < least_contrast) return std::nullopt;
    for (auto c = static_cast<std::size_t>(column(crust_from)); c < profile.size(); ++c) {
        const float way = (profile[c] - crust) / (crumb - crust);
        if (way < 0.5f) continue;
        // Between the samples on either side of half-way.
        const float before = c > 0 ? (profile[c - 1] - crust) / (crumb - crust) : way;
        const float back = way > before ? (way - 0.5f) / (way - before) : 0;
        return (static_cast<double>(c) - std::clamp(back, 0.f, 1.f)) * depth_step;
    }
    return deepest;
}

// The depth on every ray; where the crust is not seen, its median elsewhere. Empty if it is seen
// along less than a third of the outline.
std::vector<double> crust_depths(const Rays& rays) {
    std::vector<std::optional<double>> seen;
    std::vector<float> known;
    for (int r = 0; r < rays.lightness.rows; ++r) {
        seen.push_back(crust_depth(solid_profile(rays.lightness, r)));
        if (seen.back()) known.push_back(static_cast<float>(*seen.back()));
    }
    if (3 * known.size() < seen.size()) return {};
    const double usual = quantile_of(known, 0.5);
    std::vector<double> depths;
    for (const std::optional<double>& depth : seen)
        depths.push_back(depth.value_or(usual));
    return depths;
}

std::vector<double> median_filtered(const std::vector<double>& values, int half) {
    std::vector<double> result(values.size()), window;
    const int n = static_cast<int>(values.size());
    for (int i = 0; i < n; ++i) {
        window.clear();
        for (int k = -half; k <= half; ++k)
            window.push_back(values[static_cast<std::size_t>(((i + k) % n + n) % n)]);
        result[static_cast<std::size_t>(i)] = median_of(window);
    }
    return result;
}

}  // namespace

Crumb find_crumb(const cv::Mat& rgb, const Polyline& outline, double unit_per_pixel) {
    const cv::Mat face = filled(outline, rgb.size());
    const Rays rays = sample_rays(lightness_picture(rgb), outline, unit_per_pixel);
    const std::vector<double> depths = crust_depths(rays);
    Crumb crumb;
    crumb.crust_seen = !depths.empty();
    std::vector<double> thickness(rays.points.size(), 0);
    for (std::size_t i = 0; i < depths.size(); ++i)
        thickness[i] = depths[i] / unit_per_pixel;
    thickness = median_filtered(thickness, static_cast<int>(averaging / ray_step / 2));

    // The crust is the union of the rays' strips; offsetting the outline itself would fold at
    // corners.
    crumb.mask = face.clone();
    const auto corner = [&](std::size_t i, double inward) {
        const cv::Point2d p = rays.points[i] - inward * rays.normals[i];
        return cv::Point(static_cast<int>(std::lround(p.x)), static_cast<int>(std::lround(p.y)));
    };
    for (std::size_t i = 0; i < thickness.size(); ++i) {
        const std::size_t j = (i + 1) % thickness.size();
        if (thickness[i] < 0.5 && thickness[j] < 0.5) continue;
        const std::vector<cv::Point> strip = {corner(i, -1), corner(j, -1), corner(j, thickness[j]),
                                              corner(i, thickness[i])};
        cv::fillPoly(crumb.mask, std::vector<std::vector<cv::Point>>{strip}, 0);
    }
    crumb.area = cv::countNonZero(crumb.mask) * unit_per_pixel * unit_per_pixel;
    crumb.rim = rays.points;
    for (const double t : thickness)
        crumb.crust_depth.push_back(t * unit_per_pixel);
    return crumb;
}

}  // namespace loafmark::analysis
