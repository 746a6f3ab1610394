#include "find_slices.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include <opencv2/imgproc.hpp>

#include "colour.h"
#include "geometry2d.h"
#include "morphology.h"

namespace loafmark::analysis {
namespace {

// Long side of the picture in which slices are looked for: a cell of 1 mm is still 2 to 5 pixels.
constexpr int search_side_px = 900;
// Long side of the window in which one slice's graph cut is solved; its cost grows faster than
// linearly with the pixels, and the outline is refined later at full resolution.
constexpr int cut_side_px = 300;
// A gradient counts at most this much (L* a pixel), lest one strong edge pass for texture.
constexpr float gradient_ceiling = 6;
// Crumb's texture is at least this (L* a pixel); below lies the noise of a phone's sensor.
constexpr double least_texture = 0.8;
// A slice's core is where texture reaches this share of the slice's own upper values. The first
// serves nearly always; where cloth of coarse weave lies beside the bread, the second keeps it out.
constexpr double core_share = 0.75;
constexpr double strict_core_share = 0.86;
// A loaf's outline is nearly convex: below this share of its convex hull, the cut has leaked.
constexpr double least_solidity = 0.94;
// In core sizes (square roots of area): no crust, dense rim included, is thicker than the first;
// the surroundings are learned from there to the second.
constexpr double thickest_crust = 0.2;
constexpr double surroundings_reach = 0.35;
// A cut that holds this many times its core's area is repeated from there.
constexpr double grown = 1.2;
// A second slice's texture and size against the first's.
constexpr double second_slice_texture = 0.6;
constexpr double second_slice_area = 0.15;

struct Features {
    cv::Mat lab;      // CV_32FC3, CIELAB
    cv::Mat texture;  // CV_32F, L* a pixel
};

cv::Mat isotropic_texture(const cv::Mat& lightness, double sigma) {
    cv::Mat gx, gy, magnitude;
    cv::Sobel(lightness, gx, CV_32F, 1, 0, 3, 1.0 / 8);
    cv::Sobel(lightness, gy, CV_32F, 0, 1, 3, 1.0 / 8);
    cv::magnitude(gx, gy, magnitude);
    const cv::Mat limit = cv::max(magnitude / gradient_ceiling, 1.0f);
    cv::divide(gx, limit, gx);
    cv::divide(gy, limit, gy);
    cv::Mat xx = gx.mul(gx), yy = gy.mul(gy), xy = gx.mul(gy);
    for (cv::Mat* m : {&xx, &yy, &xy})
        cv::GaussianBlur(*m, *m, {}, sigma);
    const cv::Mat half_difference = (xx - yy) / 2;
    cv::Mat root;
    cv::sqrt(half_difference.mul(half_difference) + xy.mul(xy), root);
    cv::Mat smaller = cv::max((xx + yy) / 2 - root, 0.0f);
    cv::sqrt(smaller, smaller);
    return smaller;
}

Features features_of(const cv::Mat& reduced_rgb) {
    Features features;
    features.lab = lab_picture(reduced_rgb);
    cv::Mat lightness;
    cv::extractChannel(features.lab, lightness, 0);
    const double sigma = std::max(reduced_rgb.cols, reduced_rgb.rows) / 120.0;
    features.texture = isotropic_texture(lightness, sigma);
    return features;
}

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
    const auto at = static_cast<std::ptrdiff_t>(q * static_cast<double>(inside.size() - 1));
    std::nth_element(inside.begin(), inside.begin() + at, inside.end());
    return inside[static_cast<std::size_t>(at)];
}

struct Blob {
    cv::Mat mask;  // CV_8U 0/1, filled
    double area = 0;
    double texture = 0;  // mean
    double rank = 0;
};

// Outer contours of `mask`, each filled, that hold a disc of `radius`.
std::vector<Blob> blobs_of(const cv::Mat& mask, const cv::Mat& texture) {
    std::vector<std::vector<cv::Point>> contours;
    cv::findContours(mask.clone(), contours, cv::RETR_EXTERNAL, cv::CHAIN_APPROX_NONE);
    std::vector<Blob> blobs;
    const cv::Point2d middle(mask.cols / 2.0, mask.rows / 2.0);
    for (const auto& contour : contours) {
        Blob blob;
        blob.mask = cv::Mat::zeros(mask.size(), CV_8U);
        cv::drawContours(blob.mask, std::vector<std::vector<cv::Point>>{contour}, -1, 1,
                         cv::FILLED);
        blob.area = cv::countNonZero(blob.mask);
        blob.texture = cv::mean(texture, blob.mask)[0];
        const cv::Moments m = cv::moments(blob.mask, true);
        const double off_centre =
            cv::norm(cv::Point2d(m.m10 / m.m00, m.m01 / m.m00) - middle) / cv::norm(middle);
        blob.rank = blob.area * blob.texture * blob.texture * (1 - 0.7 * off_centre);
        blobs.push_back(std::move(blob));
    }
    std::sort(blobs.begin(), blobs.end(),
              [](const Blob& a, const Blob& b) { return a.rank > b.rank; });
    return blobs;
}

// The cores of slices: where texture is `share` of the photo's most bread-like place, or more.
std::vector<Blob> slice_cores(const cv::Mat& texture, double least_radius, double share) {
    const double floor = std::max(otsu_level(texture), least_texture);
    cv::Mat rough = texture > floor;
    rough = opened(rough, least_radius / 2);
    rough = closed(rough, least_radius / 2);
    const std::vector<Blob> first = blobs_of(rough, texture);
    if (first.empty()) return {};

    // The reference is the bread's own upper texture. Where cloth joins it to one blob, the first
    // reference is too low, but cuts most of the cloth away, and the next is the bread's.
    double level = floor;
    Blob bread = first.front();
    for (int round = 0; round < 3; ++round) {
        level = std::max(floor, share * quantile_inside(texture, bread.mask, 0.8));
        const cv::Mat mask = opened(closed(texture > level, least_radius / 2), least_radius / 2);
        std::vector<Blob> next = blobs_of(mask, texture);
        if (next.empty() || next.front().area > 0.95 * bread.area) break;
        bread = std::move(next.front());
    }
    const double unit = 0.03 * std::sqrt(bread.area);
    cv::Mat core = texture > level;
    core = opened(core, 0.6 * unit);
    core = closed(core, 2 * unit);
    core = opened(core, std::max(2 * unit, 0.7 * least_radius));
    std::vector<Blob> cores = blobs_of(core, texture);
    if (cores.empty()) return {};
    const Blob best = cores.front();
    std::erase_if(cores, [&](const Blob& b) {
        return b.area < second_slice_area * best.area ||
               b.texture < second_slice_texture * best.texture;
    });
    return cores;
}

// How much of the photo's border the core touches, as a share of the core's own extent.
bool touches_frame(const cv::Mat& mask, int margin) {
    const int w = mask.cols, h = mask.rows;
    const int touching =
        std::max({cv::countNonZero(mask.row(margin)), cv::countNonZero(mask.row(h - 1 - margin)),
                  cv::countNonZero(mask.col(margin)), cv::countNonZero(mask.col(w - 1 - margin))});
    return touching > 0.3 * std::sqrt(cv::countNonZero(mask));
}

cv::Rect window_round(const cv::Mat& mask, double margin) {
    const cv::Rect box = cv::boundingRect(mask);
    const int m = static_cast<int>(std::ceil(margin));
    return cv::Rect(box.x - m, box.y - m, box.width + 2 * m, box.height + 2 * m) &
           cv::Rect({0, 0}, mask.size());
}

// Three channels for the graph cut: lightness, warmth (bread is never blue), texture.
cv::Mat cut_picture(const Features& features, const cv::Rect& window, cv::Size size) {
    cv::Mat lab, texture;
    cv::resize(features.lab(window), lab, size, 0, 0, cv::INTER_AREA);
    cv::resize(features.texture(window), texture, size, 0, 0, cv::INTER_AREA);
    std::vector<cv::Mat> planes;
    cv::split(lab, planes);
    const cv::Mat warmth = (planes[1] + planes[2]) * 1.5 + 100;
    cv::Mat picture;
    cv::merge(std::vector<cv::Mat>{planes[0] * 2.0, warmth, texture * 40}, picture);
    picture.convertTo(picture, CV_8U);
    return picture;
}

// The looks of the surroundings: clusters of the pixels in a ring well outside the core.
struct Surroundings {
    cv::Mat centres;  // one row a cluster; CV_32F, the cut picture's three channels
};

Surroundings surroundings_of(const cv::Mat& picture, const cv::Mat& ring) {
    constexpr int clusters = 5;
    std::vector<cv::Vec3f> samples;
    const int stride = std::max(1, cv::countNonZero(ring) / 3000);
    int seen = 0;
    for (int y = 0; y < ring.rows; ++y)
        for (int x = 0; x < ring.cols; ++x)
            if (ring.at<uchar>(y, x) && seen++ % stride == 0)
                samples.emplace_back(picture.at<cv::Vec3b>(y, x));
    if (samples.size() < 10 * clusters) return {};
    const cv::Mat data(static_cast<int>(samples.size()), 3, CV_32F, samples.data());
    cv::Mat labels;
    Surroundings around;
    cv::theRNG().state = 20260301;  // equal photos, equal clusters
    cv::kmeans(data, clusters, labels, {cv::TermCriteria::COUNT, 10, 0}, 1, cv::KMEANS_PP_CENTERS,
               around.centres);
    return around;
}

// Pixels that look like none of the surroundings. A shadow keeps its ground's warmth, so lightness
// counts for less; texture is blurred across edges and does not count.
cv::Mat unlike(const Surroundings& around, const cv::Mat& picture) {
    constexpr float lightness_sigma = 30, warmth_sigma = 12;  // of the cut picture's channels
    constexpr float limit = 4;
    cv::Mat result(picture.size(), CV_8U, cv::Scalar(around.centres.empty() ? 0 : 255));
    for (int y = 0; y < picture.rows; ++y)
        for (int x = 0; x < picture.cols; ++x)
            for (int k = 0; k < around.centres.rows; ++k) {
                const cv::Vec3b& v = picture.at<cv::Vec3b>(y, x);
                const float* centre = around.centres.ptr<float>(k);
                const float l = (static_cast<float>(v[0]) - centre[0]) / lightness_sigma;
                const float w = (static_cast<float>(v[1]) - centre[1]) / warmth_sigma;
                if (l * l + w * w < limit) {
                    result.at<uchar>(y, x) = 0;
                    break;
                }
            }
    return result;
}

// What is known beforehand: bread within the core, not bread far from it, at the photo's border and
// on other slices; near the core, what looks like none of the surroundings is bread at first guess,
// the rest is not; the cut decides.
cv::Mat beforehand(const cv::Mat& picture, const cv::Mat& core, const cv::Mat& excluded,
                   bool whole) {
    const double size = std::sqrt(cv::countNonZero(core));
    cv::Mat inside, outside;
    cv::distanceTransform(core, inside, cv::DIST_L2, 5);
    cv::distanceTransform(1 - core, outside, cv::DIST_L2, 5);
    const cv::Mat ring = (outside > thickest_crust * size) & (excluded == 0);
    const cv::Mat stranger = unlike(surroundings_of(picture, ring), picture);
    cv::Mat labels(core.size(), CV_8U, cv::Scalar(cv::GC_BGD));
    labels.setTo(cv::GC_PR_BGD, outside < thickest_crust * size);
    labels.setTo(cv::GC_PR_FGD, stranger & (outside < thickest_crust * size));
    labels.setTo(cv::GC_PR_FGD, outside < 0.01 * size);
    labels.setTo(cv::GC_PR_FGD, core);
    labels.setTo(cv::GC_FGD, inside > 0.05 * size);
    labels.setTo(cv::GC_BGD, excluded);
    if (whole) cv::rectangle(labels, {0, 0}, {core.cols - 1, core.rows - 1}, cv::GC_BGD, 2);
    return labels;
}

std::optional<FoundSlice> cut_out(const Features& features, const Blob& core,
                                  const cv::Mat& not_this, double to_photo) {
    FoundSlice slice;
    slice.cut_by_frame = touches_frame(core.mask, 3);
    const cv::Rect window = window_round(core.mask, surroundings_reach * std::sqrt(core.area));
    const double shrink =
        std::min(1.0, static_cast<double>(cut_side_px) / std::max(window.width, window.height));
    const cv::Size size(std::max(8, static_cast<int>(window.width * shrink)),
                        std::max(8, static_cast<int>(window.height * shrink)));
    cv::Mat small_core, excluded;
    cv::resize(core.mask(window), small_core, size, 0, 0, cv::INTER_NEAREST);
    cv::resize(not_this(window), excluded, size, 0, 0, cv::INTER_NEAREST);
    const cv::Mat picture = cut_picture(features, window, size);
    cv::Mat labels = beforehand(picture, small_core, excluded, !slice.cut_by_frame);
    if (cv::countNonZero(labels == cv::GC_FGD) == 0) return std::nullopt;
    if (cv::countNonZero((labels == cv::GC_BGD) | (labels == cv::GC_PR_BGD)) > 0) {
        cv::Mat background, foreground;
        cv::grabCut(picture, labels, {}, background, foreground, 2, cv::GC_INIT_WITH_MASK);
    }
    cv::Mat bread = (labels == cv::GC_FGD) | (labels == cv::GC_PR_FGD);
    const double radius = 0.02 * std::sqrt(cv::countNonZero(small_core));
    bread = closed(bread, 2 * radius);
    bread = opened(bread, radius);
    std::vector<std::vector<cv::Point>> contours;
    cv::findContours(bread, contours, cv::RETR_EXTERNAL, cv::CHAIN_APPROX_NONE);
    if (contours.empty()) return std::nullopt;
    const auto& largest = *std::max_element(
        contours.begin(), contours.end(),
        [](const auto& a, const auto& b) { return cv::contourArea(a) < cv::contourArea(b); });
    const double sx = static_cast<double>(window.width) / size.width;
    const double sy = static_cast<double>(window.height) / size.height;
    for (const cv::Point& p : largest)
        slice.outline.emplace_back(((p.x + 0.5) * sx + window.x) * to_photo - 0.5,
                                   ((p.y + 0.5) * sy + window.y) * to_photo - 0.5);
    return slice;
}

void sort_for_reading(std::vector<FoundSlice>& slices) {
    const auto box = [](const FoundSlice& s) {
        std::vector<cv::Point2f> points(s.outline.begin(), s.outline.end());
        return cv::boundingRect(points);
    };
    std::sort(slices.begin(), slices.end(), [&](const FoundSlice& a, const FoundSlice& b) {
        return box(a).x + box(a).width / 2 < box(b).x + box(b).width / 2;
    });
    // Slices whose middles lie within half a width of each other stand in one column.
    for (auto from = slices.begin(); from != slices.end();) {
        const cv::Rect first = box(*from);
        auto to = std::next(from);
        while (to != slices.end() && box(*to).x + box(*to).width / 2 < first.x + first.width)
            ++to;
        std::sort(from, to,
                  [&](const FoundSlice& a, const FoundSlice& b) { return box(a).y < box(b).y; });
        from = to;
    }
}

// The rough outline of a slice as the core of another cut.
Blob core_from(const FoundSlice& slice, const Blob& core, double to_photo) {
    Blob next = core;
    Polyline small;
    for (const cv::Point2d& p : slice.outline)
        small.push_back(p / to_photo);
    next.mask = filled(small, core.mask.size());
    next.area = cv::countNonZero(next.mask);
    return next;
}

std::vector<FoundSlice> cut_all(const Features& features, double least_radius, double share,
                                double to_photo) {
    const std::vector<Blob> cores = slice_cores(features.texture, least_radius, share);
    std::vector<FoundSlice> slices;
    for (const Blob& core : cores) {
        cv::Mat others = cv::Mat::zeros(core.mask.size(), CV_8U);
        for (const Blob& other : cores)
            if (&other != &core) others |= other.mask;
        std::optional<FoundSlice> slice = cut_out(features, core, others, to_photo);
        // Where large cavities left the core small, the first cut is a better core.
        if (slice && area_inside(slice->outline) > grown * core.area * to_photo * to_photo)
            if (auto again = cut_out(features, core_from(*slice, core, to_photo), others, to_photo))
                slice = std::move(again);
        if (slice) slices.push_back(std::move(*slice));
    }
    return slices;
}

// Of the least solid slice: its area over that of its convex hull. 0 for no slice.
double solidity(const std::vector<FoundSlice>& slices) {
    double least = slices.empty() ? 0 : 1;
    for (const FoundSlice& slice : slices) {
        const std::vector<cv::Point2f> points(slice.outline.begin(), slice.outline.end());
        std::vector<cv::Point2f> hull;
        cv::convexHull(points, hull);
        least = std::min(least, cv::contourArea(points) / std::max(1.0, cv::contourArea(hull)));
    }
    return least;
}

}  // namespace

std::vector<FoundSlice> find_slices(const cv::Mat& rgb, const SliceSearch& search) {
    const int long_side = std::max(rgb.cols, rgb.rows);
    const double shrink = std::min(1.0, static_cast<double>(search_side_px) / long_side);
    cv::Mat reduced;
    cv::resize(rgb, reduced, {}, shrink, shrink, cv::INTER_AREA);
    if (std::min(reduced.cols, reduced.rows) < 32) return {};
    Features features = features_of(reduced);
    for (const auto& polygon : search.not_bread) {
        std::vector<cv::Point> scaled;
        for (const cv::Point& p : polygon)
            scaled.emplace_back(static_cast<int>(p.x * shrink), static_cast<int>(p.y * shrink));
        cv::fillConvexPoly(features.texture, scaled, 0);
    }
    const double least_radius = search.least_radius_px > 0
                                    ? search.least_radius_px * shrink
                                    : std::max(reduced.cols, reduced.rows) / 30.0;
    std::vector<FoundSlice> slices = cut_all(features, least_radius, core_share, 1 / shrink);
    if (solidity(slices) < least_solidity) {
        std::vector<FoundSlice> strict =
            cut_all(features, least_radius, strict_core_share, 1 / shrink);
        if (solidity(strict) > solidity(slices)) slices = std::move(strict);
    }
    sort_for_reading(slices);
    return slices;
}

}  // namespace loafmark::analysis
