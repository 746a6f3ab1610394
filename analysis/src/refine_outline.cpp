#include "refine_outline.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <vector>

#include <opencv2/imgproc.hpp>

#include "colour.h"
#include "local_looks.h"
#include "morphology.h"

namespace loafmark::analysis {
namespace {

// All in working units (mm).
constexpr double ray_step = 0.5;     // between rays, along the outline
constexpr double sample_step = 0.1;  // along a ray
constexpr double inner_reach = 4.0;  // a ray starts this far inside the rough outline
constexpr double outer_reach = 7.0;  // and ends this far outside
// The edge is looked for this far from the rough outline, in the first round and in the second.
constexpr std::array<double, 2> search_reach = {1.8, 1.0};
constexpr double ground_from = 2.4;  // the ground is learned from here outwards
constexpr double bread_from = 3.0;   // bread is learned from here inside the rough outline
constexpr double bread_to = 0.6;     // to here
constexpr double rim_from = 1.2, rim_to = 0.2;  // and crust in between
constexpr double looks_window = 8;  // and both this far along the outline to either side
// A pixel is not of a kind when it lies this many standard deviations from it, squared.
constexpr float unlike_limit = 9;
// Darker than the ground may be its shadow, which changes brightness much and hue little.
constexpr float darker_sigma = 0.35f;
constexpr float bend_penalty = 12;  // for each sample that the edge moves from ray to ray, squared
constexpr int most_bend = 3;
// Where a strip of the loaf's side as wide as this is in sight outside the face, colour and its
// jumps count no more: crust behind the cut looks like crust at its rim, and jumps most at its far
// edge.
constexpr double thin_strip = 0.1, wide_strip = 0.5;
// There the network, which takes some of the side for face, must be surer: of its doubt this share
// counts. Learned on 32 development photos, whose outlines then lie as often inside as outside.
constexpr float doubt_beside_side = 0.6f;
constexpr double spike_radius = 2.5;  // what is narrower than twice this sticks to the loaf

struct Weights {
    float bread;  // of being unlike bread, against 1 of being unlike the ground: crust has many
                  // colours
    float edge;   // gain for each CIELAB unit that colour jumps at the edge
    float known;  // of what the network knows: it weighs as much as colour can, and more
    float sure = 0.5f;  // how sure the network must be of bread
};
constexpr Weights usual_weights{0.7f, 15, 14};
// The last two follow the network where it is hardly sure and where it is nearly sure: they part
// where crust and the loaf's side look alike.
constexpr std::array<Weights, 6> other_weights = {{{0.4f, 15, 14},
                                                   {1.0f, 15, 14},
                                                   {0.7f, 7, 14},
                                                   {0.7f, 30, 14},
                                                   {0.7f, 15, 40, 0.15f},
                                                   {0.7f, 15, 40, 0.85f}}};

struct Band {
    // One row a ray, one column a sample; CV_32FC3.
    cv::Mat lab;
    cv::Mat light;  // log(R/G), log(B/G), log brightness, of linear light
    cv::Mat known;  // CV_32F, 0 no bread to 1 bread; empty where nothing is known
    Polyline base, normals;
    std::vector<float> side;  // of each ray, 0 to 1: how much it crosses the loaf's side
    int zero = 0;             // column of the rough outline itself
};

Band sample_band(const cv::Mat& rgb, const cv::Mat& bread, const Polyline& rough,
                 double unit_per_pixel) {
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
    band.lab = lab_picture(sampled);
    band.light = log_light_of(sampled);
    if (!bread.empty())
        cv::remap(bread, band.known, map, cv::noArray(), cv::INTER_LINEAR, cv::BORDER_REPLICATE);
    return band;
}

// How much each ray leaves the face over the loaf's side; none where nothing else tells the two
// apart.
std::vector<float> side_crossed(const Band& band, const std::optional<SideBehind>& behind,
                                double unit_per_pixel) {
    std::vector<float> side(band.base.size(), 0);
    if (!behind || band.known.empty()) return side;
    constexpr double over_dents = 10;  // rays
    const Polyline normals = outward_normals(smoothed(band.base, over_dents));
    for (std::size_t i = 0; i < side.size(); ++i) {
        const double strip =
            behind->share * (behind->foot - band.base[i]).dot(normals[i]) * unit_per_pixel;
        side[i] = static_cast<float>(
            std::clamp((strip - thin_strip) / (wide_strip - thin_strip), 0.0, 1.0));
    }
    return side;
}

// The looks of the samples in columns [from, to) of the rays round `ray`.
Looks looks_near(const Band& band, int ray, int from, int to) {
    const int rows = band.light.rows;
    const int reach = static_cast<int>(looks_window / ray_step);
    std::vector<LogLight> samples;
    for (int k = -reach; k <= reach; k += 2)
        for (int c = std::max(0, from); c < std::min(band.light.cols, to); c += 3)
            samples.push_back(band.light.at<cv::Vec3f>(((ray + k) % rows + rows) % rows, c));
    return looks_of(std::move(samples));
}

// How unlike its ground and how unlike bread each sample is, less the limit.
struct Likeness {
    cv::Mat unlike_ground, unlike_bread;  // CV_32F
};

Likeness likeness_of(const Band& band) {
    constexpr int share_looks = 4;  // rays that use the same looks
    const auto column = [&](double out) { return band.zero + static_cast<int>(out / sample_step); };
    // Crust differs from crumb; what it looks like is learned all round, where the rough outline is
    // right more often than not.
    std::vector<LogLight> rim_samples;
    for (int r = 0; r < band.light.rows; r += 3)
        for (int c = column(-rim_from); c < column(-rim_to); c += 3)
            rim_samples.push_back(band.light.at<LogLight>(r, c));
    const Looks rim = looks_of(std::move(rim_samples));
    Likeness result{cv::Mat(band.light.size(), CV_32F), cv::Mat(band.light.size(), CV_32F)};
    Looks ground, bread;
    for (int r = 0; r < band.light.rows; ++r) {
        if (r % share_looks == 0) {
            ground = looks_near(band, r, column(ground_from), band.light.cols);
            bread = looks_near(band, r, column(-bread_from), column(-bread_to));
            bread.insert(bread.end(), rim.begin(), rim.end());
        }
        for (int c = 0; c < band.light.cols; ++c) {
            const LogLight& light = band.light.at<LogLight>(r, c);
            result.unlike_ground.at<float>(r, c) =
                std::min(squared_distance(light, ground, darker_sigma), 3 * unlike_limit) -
                unlike_limit;
            result.unlike_bread.at<float>(r, c) =
                std::min(squared_distance(light, bread, 0), 3 * unlike_limit) - unlike_limit;
        }
    }
    return result;
}

// How far colour jumps before each sample, in CIELAB units, between means of three samples.
cv::Mat jumps(const cv::Mat& lab) {
    cv::Mat smooth;
    cv::blur(lab, smooth, {1, 5});
    cv::Mat result = cv::Mat::zeros(lab.size(), CV_32F);
    for (int r = 0; r < lab.rows; ++r)
        for (int c = 3; c + 2 < lab.cols; ++c) {
            cv::Vec3f difference(0, 0, 0);
            for (int k = 0; k < 3; ++k)
                difference +=
                    (smooth.at<cv::Vec3f>(r, c + k) - smooth.at<cv::Vec3f>(r, c - 1 - k)) / 3;
            result.at<float>(r, c) = static_cast<float>(cv::norm(difference));
        }
    return result;
}

// Gain of placing each ray's edge before column c: all that is inside counts for, all outside
// against. `first` and `count` are the columns searched.
cv::Mat edge_gain(const Likeness& likeness, const Band& band, const cv::Mat& jump, int first,
                  int count, const Weights& weights) {
    cv::Mat breadness = likeness.unlike_ground - weights.bread * likeness.unlike_bread;
    cv::Mat gain(breadness.rows, count, CV_32F);
    for (int r = 0; r < breadness.rows; ++r) {
        const float side = band.side[static_cast<std::size_t>(r)];
        cv::Mat ray = breadness.row(r);
        ray *= 1 - side;
        if (!band.known.empty()) {
            const float doubt = (1 - weights.sure) * (1 - side * (1 - doubt_beside_side));
            ray += 2 * weights.known * (band.known.row(r) - (1 - doubt));
        }
        const float edge = weights.edge * (1 - side);
        float total = 0;
        for (int c = 0; c < first; ++c)
            total += breadness.at<float>(r, c);
        for (int c = first; c < breadness.cols; ++c)
            total -= breadness.at<float>(r, c);
        for (int k = 0; k < count; ++k) {
            gain.at<float>(r, k) = total + edge * jump.at<float>(r, first + k);
            total += 2 * breadness.at<float>(r, first + k);
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

// The outline without what is narrower than a spike: a crumb that touches the loaf. In frame
// pixels.
Polyline without_spikes(const Polyline& outline, cv::Size size, double unit_per_pixel) {
    constexpr double coarse = 0.2;  // units a pixel
    const double shrink = unit_per_pixel / coarse;
    Polyline small(outline.size());
    std::transform(outline.begin(), outline.end(), small.begin(), [&](const cv::Point2d& p) {
        return (p + cv::Point2d(0.5, 0.5)) * shrink - cv::Point2d(0.5, 0.5);
    });
    const cv::Mat mask = filled(small, {static_cast<int>(size.width * shrink) + 1,
                                        static_cast<int>(size.height * shrink) + 1});
    // Only spikes go; elsewhere the outline keeps its sub-pixel place.
    const cv::Mat near = dilated(opened(mask, spike_radius / coarse), 3);
    Polyline kept;
    for (std::size_t i = 0; i < outline.size(); ++i) {
        const cv::Point p(static_cast<int>(std::lround(small[i].x)),
                          static_cast<int>(std::lround(small[i].y)));
        if (cv::Rect({0, 0}, near.size()).contains(p) && near.at<uchar>(p))
            kept.push_back(outline[i]);
    }
    return kept.size() > outline.size() / 2 ? kept : outline;
}

}  // namespace

RefinedOutline refine_outline(const cv::Mat& rgb, const Polyline& outline, double unit_per_pixel,
                              const cv::Mat& bread, const std::optional<SideBehind>& behind) {
    RefinedOutline refined;
    refined.outline = outline;
    // The first round mends what the rough outline missed, the second starts close to the edge, so
    // that rays stand square to it and corners are no longer rounded by smoothing.
    for (const double reach : search_reach) {
        Band band = sample_band(rgb, bread, refined.outline, unit_per_pixel);
        band.side = side_crossed(band, behind, unit_per_pixel);
        const Likeness likeness = likeness_of(band);
        const cv::Mat jump = jumps(band.lab);
        const int first = band.zero - static_cast<int>(reach / sample_step);
        const int count = 2 * static_cast<int>(reach / sample_step) + 1;
        const auto placed = [&](const Weights& weights) {
            const std::vector<int> path =
                best_path(edge_gain(likeness, band, jump, first, count, weights));
            Polyline moved(band.base.size());
            for (std::size_t i = 0; i < moved.size(); ++i) {
                const double out =
                    (first + path[i] - band.zero - 0.5) * sample_step / unit_per_pixel;
                moved[i] = band.base[i] + out * band.normals[i];
            }
            return smoothed(moved, 1);
        };
        refined.outline = placed(usual_weights);
        if (reach == search_reach.back())
            for (const Weights& weights : other_weights)
                refined.alternatives.push_back(placed(weights));
    }
    refined.outline = resampled(without_spikes(refined.outline, rgb.size(), unit_per_pixel),
                                ray_step / unit_per_pixel);
    // Half a sample of quantisation and a photo's usual blur. Chosen with what shape_values() makes
    // of it on 352 development slices; the accuracy table judges it.
    refined.uncertainty = 0.18;
    return refined;
}

}  // namespace loafmark::analysis
