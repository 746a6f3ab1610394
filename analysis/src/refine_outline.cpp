#include "refine_outline.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <vector>

#include <opencv2/imgproc.hpp>

namespace loafmark::analysis {
namespace {

// All in working units (mm).
constexpr double ray_step = 0.5;         // between rays, along the outline
constexpr double sample_step = 0.1;      // along a ray
constexpr double inner_reach = 4.0;      // a ray starts this far inside the rough outline
constexpr double outer_reach = 7.0;      // and ends this far outside
constexpr double search_reach = 3.0;     // the edge is looked for this far from the rough outline
constexpr double background_from = 3.2;  // the background is learned from here outwards
constexpr double background_window = 8;  // and this far along the outline to either side
// A pixel is not background when it lies this many standard deviations from it, squared.
constexpr float strangeness_limit = 9;
constexpr float least_sigma = 2.0f;  // CIELAB units: below lies sensor noise and JPEG
constexpr float bend_penalty = 6;    // for each sample that the edge moves from ray to ray
constexpr int most_bend = 3;

struct Band {
    cv::Mat lab;  // one row a ray, one column a sample; CV_32FC3
    Polyline base, normals;
    int zero = 0;  // column of the rough outline itself
};

Band sample_band(const cv::Mat& rgb, const Polyline& rough, double unit_per_pixel) {
    Band band;
    band.base = smoothed(resampled(rough, ray_step / unit_per_pixel), 3);
    band.normals = outward_normals(band.base);
    const int columns = static_cast<int>((inner_reach + outer_reach) / sample_step);
    band.zero = static_cast<int>(inner_reach / sample_step);
    const int rows = static_cast<int>(band.base.size());
    cv::Mat map(rows, columns, CV_32FC2);
    for (int r = 0; r < rows; ++r)
        for (int c = 0; c < columns; ++c) {
            const double out = (c - band.zero) * sample_step / unit_per_pixel;
            const cv::Point2d p = band.base[static_cast<std::size_t>(r)] +
                                  out * band.normals[static_cast<std::size_t>(r)];
            map.at<cv::Vec2f>(r, c) = {static_cast<float>(p.x), static_cast<float>(p.y)};
        }
    cv::Mat sampled;
    cv::remap(rgb, sampled, map, cv::noArray(), cv::INTER_LINEAR, cv::BORDER_REPLICATE);
    sampled.convertTo(sampled, CV_32F, 1.0 / 255);
    cv::cvtColor(sampled, band.lab, cv::COLOR_RGB2Lab);
    return band;
}

float median_of(std::vector<float>& values) {
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

struct Background {
    std::array<float, 3> colour{}, sigma{};
};

// Median and robust spread (1.4826 x the median absolute deviation) beyond the rough outline.
Background background_near(const Band& band, int ray) {
    const int rows = band.lab.rows;
    const int reach = static_cast<int>(background_window / ray_step);
    const int from = band.zero + static_cast<int>(background_from / sample_step);
    Background background;
    std::vector<float> values;
    for (int channel = 0; channel < 3; ++channel) {
        const auto collect = [&](auto&& transform) {
            values.clear();
            for (int k = -reach; k <= reach; k += 2)
                for (int c = from; c < band.lab.cols; c += 3)
                    values.push_back(transform(
                        band.lab.at<cv::Vec3f>(((ray + k) % rows + rows) % rows, c)[channel]));
            return median_of(values);
        };
        const auto at = static_cast<std::size_t>(channel);
        background.colour[at] = collect([](float v) { return v; });
        const float centre = background.colour[at];
        background.sigma[at] = std::max(
            least_sigma, 1.4826f * collect([centre](float v) { return std::abs(v - centre); }));
    }
    return background;
}

// How unlike the background each sample is, less the limit: positive inside, negative outside.
// Shadow darkens a background without changing its hue, so darkness counts for less than colour.
cv::Mat strangeness(const Band& band) {
    constexpr int share_background = 4;  // rays that use one background
    cv::Mat result(band.lab.size(), CV_32F);
    Background background;
    for (int r = 0; r < band.lab.rows; ++r) {
        if (r % share_background == 0) background = background_near(band, r);
        for (int c = 0; c < band.lab.cols; ++c) {
            const cv::Vec3f& v = band.lab.at<cv::Vec3f>(r, c);
            float d2 = 0;
            for (int k = 0; k < 3; ++k) {
                const auto at = static_cast<std::size_t>(k);
                const float d = (v[k] - background.colour[at]) / background.sigma[at];
                d2 += d * d;
            }
            result.at<float>(r, c) = std::min(d2, 3 * strangeness_limit) - strangeness_limit;
        }
    }
    return result;
}

// Gain of placing each ray's edge before column c: all that is inside counts for, all outside
// against. The columns searched are those within search_reach of the rough outline.
cv::Mat edge_gain(const cv::Mat& strange, int first, int count) {
    cv::Mat gain(strange.rows, count, CV_32F);
    for (int r = 0; r < strange.rows; ++r) {
        float total = 0;
        for (int c = 0; c < first; ++c)
            total += strange.at<float>(r, c);
        for (int c = first; c < strange.cols; ++c)
            total -= strange.at<float>(r, c);
        for (int k = 0; k < count; ++k) {
            gain.at<float>(r, k) = total;
            total += 2 * strange.at<float>(r, first + k);
        }
    }
    return gain;
}

// The closed path of greatest gain, one column a ray. Run twice round, the second lap starting from
// what the first learned, which closes the path well enough.
std::vector<int> best_path(const cv::Mat& gain) {
    const int rows = gain.rows, columns = gain.cols;
    cv::Mat from(2 * rows, columns, CV_8S);
    std::vector<float> score(static_cast<std::size_t>(columns), 0), next(score);
    for (int lap_row = 0; lap_row < 2 * rows; ++lap_row) {
        for (int c = 0; c < columns; ++c) {
            float best = -std::numeric_limits<float>::infinity();
            int best_step = 0;
            for (int step = -most_bend; step <= most_bend; ++step) {
                if (c + step < 0 || c + step >= columns) continue;
                const float s = score[static_cast<std::size_t>(c + step)] -
                                bend_penalty * static_cast<float>(step * step);
                if (s > best) best = s, best_step = step;
            }
            next[static_cast<std::size_t>(c)] = best + gain.at<float>(lap_row % rows, c);
            from.at<schar>(lap_row, c) = static_cast<schar>(best_step);
        }
        std::swap(score, next);
    }
    std::vector<int> path(static_cast<std::size_t>(rows));
    int at = static_cast<int>(std::max_element(score.begin(), score.end()) - score.begin());
    for (int lap_row = 2 * rows - 1; lap_row >= 0; --lap_row) {
        if (lap_row < rows + rows / 2 && lap_row >= rows / 2)
            path[static_cast<std::size_t>(lap_row % rows)] = at;
        at += from.at<schar>(lap_row, at);
    }
    return path;
}

}  // namespace

RefinedOutline refine_outline(const cv::Mat& rgb, const Polyline& outline, double unit_per_pixel) {
    RefinedOutline refined;
    refined.outline = outline;
    // The first round mends what the rough outline missed, the second starts close to the edge, so
    // that rays stand square to it and corners are no longer rounded by smoothing.
    for (int round = 0; round < 2; ++round) {
        const Band band = sample_band(rgb, refined.outline, unit_per_pixel);
        const int first = band.zero - static_cast<int>(search_reach / sample_step);
        const int count = 2 * static_cast<int>(search_reach / sample_step) + 1;
        const std::vector<int> path = best_path(edge_gain(strangeness(band), first, count));
        Polyline moved(band.base.size());
        for (std::size_t i = 0; i < moved.size(); ++i) {
            const double out = (first + path[i] - band.zero - 0.5) * sample_step / unit_per_pixel;
            moved[i] = band.base[i] + out * band.normals[i];
        }
        refined.outline = smoothed(moved, 1);
    }
    // Half a sample of quantisation and a photo's usual blur; the accuracy table judges it.
    refined.uncertainty = 0.15;
    return refined;
}

}  // namespace loafmark::analysis
