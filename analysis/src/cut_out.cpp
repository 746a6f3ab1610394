#include "cut_out.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <vector>

#include <opencv2/imgproc.hpp>

#include "contours.h"
#include "graph_cut.h"
#include "local_looks.h"
#include "morphology.h"

namespace loafmark::analysis {
namespace {

// Long side of the window in which one slice is cut out; the outline is refined later at full
// resolution.
constexpr int cut_side_px = 300;
// The rest in slice sizes (square roots of area).
// The window reaches this far beyond the core.
constexpr double window_reach = 0.6;
// The ground is learned from a ring about the core: in the first round beyond the thickest crust
// and dense rim, in the second close to the piece that the first found.
constexpr std::array<std::array<double, 2>, 2> ring_from = {{{0.2, 0.07}, {0.4, 0.07}}};
constexpr double ring_width = 0.25;
// Looks of the ground: paper, its print, table, cloth and what else lies about.
constexpr std::size_t ground_looks = 6;
constexpr float unlike_limit = 9;         // squared standard deviations
constexpr float least_hue_sigma = 0.08f;  // in logarithms of ratios: light bounced off the bread
// Ground of which more than this share is unlike its own looks is too busy to judge by.
constexpr double most_misfit = 0.06;
// Of the core, at least this share has a hue that the ground has not.
constexpr double least_unlike = 0.85;
// Of the ground, at least this share has no hue of bread.
constexpr double least_bare = 0.5;
// A piece less solid (its area over its hull's) has run into something that is no bread.
constexpr double least_solidity = 0.94;
constexpr double most_growth = 4;  // of area, from core to piece

cv::Rect window_round(const cv::Mat& mask, double margin) {
    const cv::Rect box = cv::boundingRect(mask);
    const int m = static_cast<int>(std::ceil(margin));
    return cv::Rect(box.x - m, box.y - m, box.width + 2 * m, box.height + 2 * m) &
           cv::Rect({0, 0}, mask.size());
}

// How much of the photo's border the core touches, as a share of the core's own extent.
bool touches_frame(const cv::Mat& mask, int margin) {
    const int w = mask.cols, h = mask.rows;
    const int touching =
        std::max({cv::countNonZero(mask.row(margin)), cv::countNonZero(mask.row(h - 1 - margin)),
                  cv::countNonZero(mask.col(margin)), cv::countNonZero(mask.col(w - 1 - margin))});
    return touching > 0.3 * std::sqrt(cv::countNonZero(mask));
}

// Squared distance of the hue from the nearest look's. Brightness does not count: a shadow on the
// ground is ground.
float hue_distance(const LogLight& light, const Looks& looks) {
    float nearest = std::numeric_limits<float>::infinity();
    for (const Look& look : looks) {
        float d2 = 0;
        for (int k = 0; k < 2; ++k) {
            const float sigma = std::max(least_hue_sigma, look.sigma[static_cast<std::size_t>(k)]);
            const float d = (light[k] - look.light[k]) / sigma;
            d2 += d * d;
        }
        nearest = std::min(nearest, d2);
    }
    return nearest;
}

// CV_8U, 255 where `light` has the hue of no ground and is nearer to bread's: deep shadow pales
// towards grey, but from the ground's side.
cv::Mat unlike(const cv::Mat& light, const Looks& ground, const Looks& bread) {
    cv::Mat result(light.size(), CV_8U);
    for (int y = 0; y < light.rows; ++y)
        for (int x = 0; x < light.cols; ++x) {
            const LogLight& v = light.at<LogLight>(y, x);
            const float d = hue_distance(v, ground);
            result.at<uchar>(y, x) = d > unlike_limit && d > hue_distance(v, bread) ? 255 : 0;
        }
    return result;
}

Looks looks_inside(const cv::Mat& light, const cv::Mat& mask) {
    std::vector<LogLight> samples;
    const int stride = std::max(1, cv::countNonZero(mask) / 4000);
    int seen = 0;
    for (int y = 0; y < light.rows; ++y)
        for (int x = 0; x < light.cols; ++x)
            if (mask.at<uchar>(y, x) && seen++ % stride == 0)
                samples.push_back(light.at<LogLight>(y, x));
    return looks_of(std::move(samples), ground_looks);
}

// The solid piece round the core that is unlike the ground; empty where there is none, or where the
// ground is too busy to tell.
Contour stranger_to_ground(const cv::Mat& light, const cv::Mat& core, const cv::Mat& hull,
                           const cv::Mat& excluded, const std::array<double, 2>& ring_starts) {
    const double size = std::sqrt(cv::countNonZero(hull));
    const Looks bread = looks_inside(light, core);
    cv::Mat region = hull;
    Contour piece;
    for (const double from : ring_starts) {
        cv::Mat outside;
        cv::distanceTransform(region == 0, outside, cv::DIST_L2, 5);
        const cv::Mat near = outside < from * size;
        const cv::Mat ring =
            (outside >= from * size) & (outside < (from + ring_width) * size) & (excluded == 0);
        const Looks looks = looks_inside(light, ring);
        if (looks.empty()) return {};
        const cv::Mat strange = unlike(light, looks, bread) & (excluded == 0);
        if (cv::countNonZero(strange & ring) > most_misfit * cv::countNonZero(ring)) return {};
        // Where bread has the ground's own hue, the graph cut tells more.
        if (cv::countNonZero(strange & core) < least_unlike * cv::countNonZero(core)) return {};
        cv::Mat mask = (strange | core) & near;
        mask = opened(without_holes(closed(mask, 0.015 * size)), 0.03 * size);
        piece = largest_contour(mask);
        region = filled_contour(piece, light.size());
        if (cv::countNonZero(region & core) < 0.9 * cv::countNonZero(core)) return {};
    }
    if (solidity_of(piece) < least_solidity ||
        cv::countNonZero(region) > most_growth * cv::countNonZero(hull))
        return {};
    return piece;
}

// A part of the features, reduced.
class Window {
  public:
    Window(const cv::Rect& box, int side_px) : box_(box) {
        const double shrink =
            std::min(1.0, static_cast<double>(side_px) / std::max(box.width, box.height));
        size_ = {std::max(8, static_cast<int>(box.width * shrink)),
                 std::max(8, static_cast<int>(box.height * shrink))};
    }
    [[nodiscard]] cv::Mat of(const cv::Mat& m, int how = cv::INTER_AREA) const {
        cv::Mat small;
        cv::resize(m(box_), small, size_, 0, 0, how);
        return small;
    }
    [[nodiscard]] cv::Mat of_mask(const cv::Mat& m) const { return of(m, cv::INTER_NEAREST) > 0; }
    [[nodiscard]] Polyline outline_of(const Contour& piece) const {
        const double sx = static_cast<double>(box_.width) / size_.width;
        const double sy = static_cast<double>(box_.height) / size_.height;
        Polyline outline;
        for (const cv::Point& p : piece)
            outline.emplace_back((p.x + 0.5) * sx + box_.x - 0.5, (p.y + 0.5) * sy + box_.y - 0.5);
        return outline;
    }

  private:
    cv::Rect box_;
    cv::Size size_;
};

// The solid parts of `mask`; what is not solid is parted at its necks, where slices touch.
std::vector<Contour> solid_parts(const cv::Mat& mask) {
    std::vector<Contour> solid;
    cv::Mat rest = mask.clone();
    for (const double neck : {4.0, 8.0, 14.0, 22.0}) {  // pixels
        const std::vector<Contour> contours = contours_of(opened(rest, neck));
        rest = cv::Mat::zeros(mask.size(), CV_8U);
        for (const Contour& contour : contours)
            if (solidity_of(contour) >= least_solidity)
                solid.push_back(contour);
            else
                rest |= filled_contour(contour, mask.size());
    }
    return solid;
}

}  // namespace

std::optional<RoughSlice> cut_out(const SliceFeatures& features, const cv::Mat& core,
                                  const cv::Mat& not_this) {
    RoughSlice slice;
    slice.cut_by_frame = touches_frame(core, 3);
    const Window window(window_round(core, window_reach * std::sqrt(cv::countNonZero(core))),
                        cut_side_px);
    const cv::Mat small_core = window.of_mask(core);
    const cv::Mat excluded = window.of_mask(not_this);
    const cv::Mat hull = hull_of(small_core) & (excluded == 0);
    const cv::Mat light = log_light_of(window.of(features.rgb));
    Contour piece;
    for (const auto& ring : ring_from)
        if (piece.empty()) piece = stranger_to_ground(light, small_core, hull, excluded, ring);
    slice.sure = !piece.empty();
    if (piece.empty()) {
        const cv::Mat bread = graph_cut(window.of(features.lab), window.of(features.texture),
                                        small_core, hull, excluded, !slice.cut_by_frame);
        if (bread.empty()) return std::nullopt;
        const double radius = 0.02 * std::sqrt(cv::countNonZero(small_core));
        piece = largest_contour(opened(without_holes(closed(bread, 2 * radius)), radius));
    }
    if (piece.empty()) return std::nullopt;
    slice.outline = window.outline_of(piece);
    return slice;
}

std::vector<RoughSlice> pieces_on(const cv::Mat& ground, const SliceFeatures& features,
                                  const cv::Mat& cores, const cv::Mat& no_bread) {
    const Window window(cv::boundingRect(ground | cores), 2 * cut_side_px);
    const cv::Mat small_cores = window.of_mask(cores);
    const cv::Mat excluded = window.of_mask(no_bread);
    const cv::Mat margins = window.of_mask(ground) & (excluded == 0);
    const cv::Mat light = log_light_of(window.of(features.rgb));
    // Slices not yet known may lie on the ground too: what has bread's hue tells nothing of it.
    const Looks bread = looks_inside(light, small_cores);
    if (bread.empty()) return {};
    cv::Mat bare = margins.clone();
    for (int y = 0; y < bare.rows; ++y)
        for (int x = 0; x < bare.cols; ++x)
            if (bare.at<uchar>(y, x) &&
                hue_distance(light.at<LogLight>(y, x), bread) < unlike_limit)
                bare.at<uchar>(y, x) = 0;
    if (cv::countNonZero(bare) < least_bare * cv::countNonZero(margins)) return {};
    const Looks looks = looks_inside(light, bare);
    if (looks.empty()) return {};
    const cv::Mat strange = unlike(light, looks, bread) & (excluded == 0);
    if (cv::countNonZero(strange & bare) > most_misfit * cv::countNonZero(bare) ||
        cv::countNonZero(strange & small_cores) < least_unlike * cv::countNonZero(small_cores))
        return {};
    constexpr double gap = 2;  // pixels: what is narrower is closed
    std::vector<RoughSlice> pieces;
    for (const Contour& contour : solid_parts(without_holes(closed(strange, gap))))
        pieces.push_back({window.outline_of(contour), false, true, 0});
    return pieces;
}

}  // namespace loafmark::analysis
