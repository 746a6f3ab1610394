#include "crumb.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include <opencv2/imgproc.hpp>

#include "colour.h"

namespace loafmark::analysis {
namespace {

// All in working units (mm).
constexpr double ray_step = 0.5;
constexpr double depth_step = 0.1;
constexpr double deepest = 10;       // no crust is thicker
constexpr double averaging = 10;     // along the outline
constexpr double crust_depth = 0.3;  // where the crust's own lightness is read
constexpr float least_contrast = 4;  // L*: a crust that differs less from the crumb is not seen

// Inward rays: lightness and whether solid, one row a ray, one column a depth.
struct Rays {
    cv::Mat lightness, solid;  // CV_32F
    Polyline points, normals;
};

Rays sample_rays(const cv::Mat& lightness, const cv::Mat& solid, const Polyline& outline,
                 double unit_per_pixel) {
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
    cv::remap(solid, rays.solid, map, cv::noArray(), cv::INTER_NEAREST, cv::BORDER_REPLICATE);
    return rays;
}

// Running mean along the outline, which is closed, over solid samples only.
cv::Mat averaged_along(const Rays& rays) {
    const int half = static_cast<int>(averaging / ray_step / 2);
    cv::Mat weighted = rays.lightness.mul(rays.solid), sum, weight;
    const auto wrapped_blur = [&](const cv::Mat& m, cv::Mat& out) {
        cv::Mat padded;
        cv::vconcat(std::vector<cv::Mat>{m.rowRange(m.rows - half, m.rows), m, m.rowRange(0, half)},
                    padded);
        cv::blur(padded, padded, {1, 2 * half + 1});
        out = padded.rowRange(half, half + m.rows);
    };
    wrapped_blur(weighted, sum);
    wrapped_blur(rays.solid, weight);
    return sum / cv::max(weight, 1e-3f);
}

// Crust thickness on one ray, in samples.
int crust_samples(const float* lightness, int count, float crumb_median) {
    const float crust = lightness[static_cast<int>(crust_depth / depth_step)];
    if (crumb_median - crust < least_contrast) return 0;
    const float half_way = (crust + crumb_median) / 2;
    for (int c = static_cast<int>(crust_depth / depth_step); c < count; ++c)
        if (lightness[c] >= half_way) return c;
    return count;
}

std::vector<double> median_filtered(const std::vector<double>& values, int half) {
    std::vector<double> result(values.size()), window;
    const int n = static_cast<int>(values.size());
    for (int i = 0; i < n; ++i) {
        window.clear();
        for (int k = -half; k <= half; ++k)
            window.push_back(values[static_cast<std::size_t>(((i + k) % n + n) % n)]);
        std::nth_element(window.begin(), window.begin() + half, window.end());
        result[static_cast<std::size_t>(i)] = window[static_cast<std::size_t>(half)];
    }
    return result;
}

float median_within(const cv::Mat& values, const cv::Mat& mask) {
    std::vector<float> inside;
    for (int y = 0; y < values.rows; y += 3)
        for (int x = 0; x < values.cols; x += 3)
            if (mask.at<uchar>(y, x)) inside.push_back(values.at<float>(y, x));
    if (inside.empty()) return 0;
    const auto middle = inside.begin() + static_cast<std::ptrdiff_t>(inside.size() / 2);
    std::nth_element(inside.begin(), middle, inside.end());
    return *middle;
}

}  // namespace

Crumb find_crumb(const cv::Mat& rgb, const Polyline& outline, const cv::Mat& open,
                 double unit_per_pixel) {
    const cv::Mat lightness = lightness_picture(rgb);
    cv::Mat solid;
    cv::Mat(open == 0).convertTo(solid, CV_32F, 1.0 / 255);
    const cv::Mat face = filled(outline, rgb.size());

    cv::Mat depth;
    cv::distanceTransform(face, depth, cv::DIST_L2, 5);
    const cv::Mat deep_solid = (depth > 5 / unit_per_pixel) & (open == 0);
    const float crumb_median = median_within(lightness, deep_solid);

    const Rays rays = sample_rays(lightness, solid, outline, unit_per_pixel);
    const cv::Mat averaged = averaged_along(rays);
    std::vector<double> thickness(rays.points.size());
    for (std::size_t i = 0; i < thickness.size(); ++i)
        thickness[i] =
            depth_step / unit_per_pixel *
            crust_samples(averaged.ptr<float>(static_cast<int>(i)), averaged.cols, crumb_median);
    thickness = median_filtered(thickness, static_cast<int>(averaging / ray_step / 2));

    // The crust is the union of the rays' strips; offsetting the outline itself would fold at
    // corners.
    Crumb crumb;
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
    return crumb;
}

}  // namespace loafmark::analysis
