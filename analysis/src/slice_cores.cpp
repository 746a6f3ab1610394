#include "slice_cores.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include <opencv2/imgproc.hpp>

#include "contours.h"
#include "morphology.h"
#include "quantile.h"

namespace loafmark::analysis {
namespace {

// Crumb's texture is at least this (L* a pixel); below lies the noise of a phone's sensor.
constexpr double least_texture = 0.8;
// Candidates are looked for at this many levels of texture, in a picture reduced by this factor.
constexpr int levels = 7;
constexpr double candidate_shrink = 0.35;
// A second slice's texture and size against the first's.
constexpr double second_slice_texture = 0.6;
constexpr double second_slice_area = 0.15;

double otsu_level(const cv::Mat& texture) {
    constexpr double steps = 50;  // of 8-bit histogram a unit
    cv::Mat quantised, unused;
    texture.convertTo(quantised, CV_8U, steps);
    return cv::threshold(quantised, unused, 0, 255, cv::THRESH_BINARY | cv::THRESH_OTSU) / steps;
}

double quantile_inside(const cv::Mat& values, const cv::Mat& mask, double q) {
    std::vector<float> inside;
    for (int y = 0; y < values.rows; ++y)
        for (int x = 0; x < values.cols; ++x)
            if (mask.at<uchar>(y, x)) inside.push_back(values.at<float>(y, x));
    if (inside.empty()) return 0;
    return quantile_of(inside, q);
}

// The share of the contour's points that lie on the picture's border.
double on_border(const Contour& contour, cv::Size size) {
    constexpr int margin = 3;
    const auto n = std::count_if(contour.begin(), contour.end(), [&](const cv::Point& p) {
        return p.x < margin || p.y < margin || p.x >= size.width - margin ||
               p.y >= size.height - margin;
    });
    return static_cast<double>(n) / static_cast<double>(contour.size());
}

SliceCore core_of(const Contour& contour, const cv::Mat& texture) {
    SliceCore core;
    core.mask = cv::Mat::zeros(texture.size(), CV_8U);
    cv::drawContours(core.mask, std::vector<Contour>{contour}, -1, 1, cv::FILLED);
    core.area = cv::countNonZero(core.mask);
    core.texture = cv::mean(texture, core.mask)[0];
    // A slice is solid, textured, away from the photo's border, and what the photo is about.
    const cv::Moments m = cv::moments(core.mask, true);
    const cv::Point2d middle(texture.cols / 2.0, texture.rows / 2.0);
    const double off_centre =
        cv::norm(cv::Point2d(m.m10 / m.m00, m.m01 / m.m00) - middle) / cv::norm(middle);
    core.rank = core.area * core.texture * core.texture * (1 - 0.7 * off_centre) *
                std::pow(solidity_of(contour), 4) *
                std::pow(1 - 0.9 * on_border(contour, texture.size()), 2);
    return core;
}

std::vector<SliceCore> cores_in(const cv::Mat& mask, const cv::Mat& texture, double most_area) {
    std::vector<SliceCore> cores;
    for (const Contour& contour : contours_of(mask)) {
        SliceCore core = core_of(contour, texture);
        if (core.area <= most_area) cores.push_back(std::move(core));
    }
    std::sort(cores.begin(), cores.end(),
              [](const SliceCore& a, const SliceCore& b) { return a.rank > b.rank; });
    return cores;
}

// The likeliest place over all levels of texture: cloth that joins the bread at a low level parts
// from it at a higher one, and then the bread is the more solid.
std::optional<SliceCore> best_candidate(const cv::Mat& texture, double floor,
                                        const CoreSearch& search) {
    cv::Mat small;
    cv::resize(texture, small, {}, candidate_shrink, candidate_shrink, cv::INTER_AREA);
    const double radius = candidate_shrink * search.least_radius / 2;
    const double most_area = candidate_shrink * candidate_shrink * search.most_area;
    const double top = std::max(1.2 * floor, quantile_inside(small, small > floor, 0.97));
    std::optional<SliceCore> best;
    for (int level = 0; level < levels; ++level) {
        const double at = floor * std::pow(top / floor, static_cast<double>(level) / levels);
        const cv::Mat mask = closed(opened(small > at, radius), radius);
        std::vector<SliceCore> cores = cores_in(mask, small, most_area);
        if (!cores.empty() && (!best || cores.front().rank > best->rank))
            best = std::move(cores.front());
    }
    if (best) cv::resize(best->mask, best->mask, texture.size(), 0, 0, cv::INTER_NEAREST);
    if (best) best->area = cv::countNonZero(best->mask);
    return best;
}

}  // namespace

std::vector<SliceCore> slice_cores(const SliceFeatures& features, const CoreSearch& search) {
    const cv::Mat& texture = features.texture;
    const double floor = std::max(otsu_level(texture), least_texture);
    const std::optional<SliceCore> bread = best_candidate(texture, floor, search);
    if (!bread) return {};
    const double level = std::max(floor, search.share * quantile_inside(texture, bread->mask, 0.8));
    const double unit = 0.03 * std::sqrt(bread->area);
    cv::Mat mask = texture > level;
    mask = opened(mask, 0.6 * unit);
    mask = closed(mask, 2 * unit);
    mask = opened(mask, std::max(2 * unit, 0.7 * search.least_radius));
    std::vector<SliceCore> cores = cores_in(mask, texture, search.most_area);
    if (cores.empty()) return {};
    const SliceCore best = cores.front();
    std::erase_if(cores, [&](const SliceCore& c) {
        return c.area < second_slice_area * best.area ||
               c.texture < second_slice_texture * best.texture || c.rank < 0.03 * best.rank;
    });
    return cores;
}

}  // namespace loafmark::analysis
