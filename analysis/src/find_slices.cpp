#include "find_slices.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include <opencv2/imgproc.hpp>

#include "contours.h"
#include "cut_out.h"
#include "geometry2d.h"
#include "morphology.h"
#include "slice_cores.h"
#include "slice_features.h"

namespace loafmark::analysis {
namespace {

// Long side of the picture in which slices are looked for: a cell of 1 mm is still 2 to 5 pixels.
constexpr int search_side_px = 900;
// A slice's core is where texture reaches this share of the slice's own upper values. The first
// serves nearly always; where cloth of coarse weave lies beside the bread, the second keeps it out.
constexpr double core_share = 0.8;
constexpr double strict_core_share = 0.86;
// A loaf's outline is nearly convex: below this share of its convex hull, the cut has leaked.
constexpr double least_solidity = 0.94;
// Further slices: their area against the first's, and their texture, which tells less where hue
// tells all.
constexpr double least_share = 0.15;
constexpr double sure_texture = 0.25, unsure_texture = 0.6;
// Against the mat as its markers bound it: a slice may reach over the sheet's edge; the margins,
// where slices seldom lie, end within the sheet, lest the table pass for the mat.
constexpr double mat_reach = 1.12;
constexpr double margin_from = 0.985, margin_to = 0.81;
// A cut that holds this many times its core's area is repeated from there.
constexpr double grown = 1.2;

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

struct ReducedSearch {
    CoreSearch cores;
    cv::Mat no_bread;  // CV_8U, nonzero where no bread can be
    cv::Mat margins;   // CV_8U, nonzero on the mat's margins; empty without a mat
    double to_photo = 1;
};

cv::Mat mask_of(const Polyline& outline, cv::Size size) {
    return filled(outline, size) * 255;
}

// Large cavities may part one slice into two cores: they are one when what is cut out round both is
// solid and holds both.
bool one_slice(const SliceFeatures& features, const cv::Mat& a, const cv::Mat& b,
               const cv::Mat& no_bread) {
    constexpr double held = 0.9;
    constexpr double solid = 0.94;
    const std::optional<RoughSlice> both = cut_out(features, a | b, no_bread);
    if (!both || solidity_of(both->outline) < solid) return false;
    const cv::Mat mask = mask_of(both->outline, a.size());
    return cv::countNonZero(mask & a * 255) > held * cv::countNonZero(a) &&
           cv::countNonZero(mask & b * 255) > held * cv::countNonZero(b);
}

std::vector<SliceCore> joined_cores(const SliceFeatures& features, const ReducedSearch& search) {
    std::vector<SliceCore> cores = slice_cores(features, search.cores);
    for (std::size_t i = 0; i < cores.size(); ++i)
        for (std::size_t j = i + 1; j < cores.size();) {
            if (!one_slice(features, cores[i].mask, cores[j].mask, search.no_bread)) {
                ++j;
                continue;
            }
            cores[i].mask |= cores[j].mask;
            cores[i].area += cores[j].area;
            cores.erase(cores.begin() + static_cast<std::ptrdiff_t>(j));
        }
    return cores;
}

// The slice round one core; `others` marks the other cores and where no bread can be.
std::optional<RoughSlice> slice_round(const SliceFeatures& features, const SliceCore& core,
                                      const cv::Mat& others) {
    std::optional<RoughSlice> slice = cut_out(features, core.mask, others);
    // Where large cavities left the core small, the first cut is a better core.
    if (slice && area_inside(slice->outline) > grown * core.area)
        if (auto again = cut_out(features, mask_of(slice->outline, core.mask.size()), others))
            slice = std::move(again);
    return slice;
}

// Whether the two outlines are of one slice.
bool same_place(const Polyline& a, const Polyline& b, cv::Size size) {
    const cv::Mat one = mask_of(a, size), other = mask_of(b, size);
    return 2 * cv::countNonZero(one & other) >
           std::min(cv::countNonZero(one), cv::countNonZero(other));
}

// One more round of search: the slices that stand out most from what `features` still shows.
std::vector<RoughSlice> next_slices(const SliceFeatures& features, const ReducedSearch& search,
                                    std::vector<SliceCore>& cores) {
    cores = joined_cores(features, search);
    std::vector<RoughSlice> slices;
    for (const SliceCore& core : cores) {
        cv::Mat others = search.no_bread.clone();
        for (const SliceCore& other : cores)
            if (&other != &core) others.setTo(255, other.mask);
        std::optional<RoughSlice> slice = slice_round(features, core, others);
        if (!slice || std::any_of(slices.begin(), slices.end(), [&](const RoughSlice& earlier) {
                return same_place(earlier.outline, slice->outline, core.mask.size());
            }))
            continue;
        slice->texture = core.texture;
        slices.push_back(std::move(*slice));
    }
    return slices;
}

// Whether a find of a later round is a slice too: of the first's size, solid, whole, and either
// clearly unlike its ground or as full of cells.
bool slice_too(const RoughSlice& found, const RoughSlice& first) {
    const double size = area_inside(found.outline) / area_inside(first.outline);
    const double texture = found.texture / first.texture;
    return size > least_share && size < 1 / least_share && !found.cut_by_frame &&
           solidity_of(found.outline) > least_solidity &&
           (found.sure ? texture > sure_texture : texture > unsure_texture);
}

// What lies well away from every core: what slices lie on.
cv::Mat ground_beside(const std::vector<SliceCore>& cores, const cv::Mat& no_bread) {
    constexpr double away = 0.35;  // of a slice's size
    cv::Mat ground = no_bread == 0;
    for (const SliceCore& core : cores)
        ground.setTo(0, dilated(core.mask, away * std::sqrt(core.area)));
    return ground;
}

cv::Mat union_of(const std::vector<SliceCore>& cores, cv::Size size) {
    cv::Mat all = cv::Mat::zeros(size, CV_8U);
    for (const SliceCore& core : cores)
        all.setTo(255, core.mask);
    return all;
}

bool touches_border(const Polyline& outline, cv::Size size) {
    constexpr double margin = 4;
    return std::any_of(outline.begin(), outline.end(), [&](const cv::Point2d& p) {
        return p.x < margin || p.y < margin || p.x > size.width - 1 - margin ||
               p.y > size.height - 1 - margin;
    });
}

// The slices that a plain ground shows at once, each cut out again on its own.
std::vector<RoughSlice> slices_on_ground(const SliceFeatures& features, const ReducedSearch& search,
                                         const std::vector<SliceCore>& cores) {
    const cv::Size size = features.texture.size();
    const cv::Mat ground =
        search.margins.empty() ? ground_beside(cores, search.no_bread) : search.margins;
    std::vector<RoughSlice> pieces =
        pieces_on(ground, features, union_of(cores, size), search.no_bread);
    const double least_area = CV_PI * std::pow(search.cores.least_radius, 2);
    for (RoughSlice& piece : pieces)
        piece.texture = cv::mean(features.texture, mask_of(piece.outline, size))[0];
    // The likeliest core must lie in one of them; the others are judged by that one.
    const SliceCore& surest = cores.front();
    const auto main = std::find_if(pieces.begin(), pieces.end(), [&](const RoughSlice& piece) {
        return cv::countNonZero(mask_of(piece.outline, size) & surest.mask * 255) >
               0.8 * surest.area;
    });
    if (main == pieces.end()) return {};
    const RoughSlice first = *main;
    std::erase_if(pieces, [&](const RoughSlice& piece) {
        const double area = area_inside(piece.outline);
        return area < least_area || area > search.cores.most_area ||
               touches_border(piece.outline, size) || !slice_too(piece, first);
    });
    std::vector<RoughSlice> slices;
    for (const RoughSlice& piece : pieces) {
        cv::Mat others = search.no_bread.clone();
        for (const RoughSlice& other : pieces)
            if (&other != &piece) others |= mask_of(other.outline, size);
        std::optional<RoughSlice> slice = cut_out(features, mask_of(piece.outline, size), others);
        if (!slice) continue;
        slice->texture = piece.texture;
        slices.push_back(std::move(*slice));
    }
    std::sort(slices.begin(), slices.end(), [](const RoughSlice& a, const RoughSlice& b) {
        return area_inside(a.outline) * a.texture > area_inside(b.outline) * b.texture;
    });
    return slices;
}

// Slices of different breads differ in texture, so those found are covered up and the rest is
// searched again.
std::vector<RoughSlice> all_slices(SliceFeatures features, ReducedSearch search) {
    constexpr int most_rounds = 8;
    const std::vector<SliceCore> first_cores = slice_cores(features, search.cores);
    if (first_cores.empty()) return {};
    std::vector<RoughSlice> slices = slices_on_ground(features, search, first_cores);
    std::size_t covered = 0;
    const auto cover_up = [&](const std::vector<SliceCore>& cores) {
        features.texture = features.texture.clone();
        for (; covered < slices.size(); ++covered)
            search.no_bread |=
                dilated(mask_of(slices[covered].outline, features.texture.size()), 4);
        features.texture.setTo(0, search.no_bread);
        for (const SliceCore& core : cores)
            features.texture.setTo(0, core.mask);
    };
    for (int round = 0; round < most_rounds; ++round) {
        std::vector<SliceCore> cores;
        cover_up(cores);
        const std::vector<RoughSlice> more = next_slices(features, search, cores);
        for (const RoughSlice& slice : more)
            if (slices.empty() || slice_too(slice, slices.front())) slices.push_back(slice);
        if (slices.size() == covered || slices.front().cut_by_frame) break;
        cover_up(cores);
    }
    return slices;
}

std::vector<FoundSlice> cut_all(const SliceFeatures& features, const ReducedSearch& search) {
    std::vector<FoundSlice> slices;
    for (const RoughSlice& slice : all_slices(features, search)) {
        FoundSlice found;
        found.cut_by_frame = slice.cut_by_frame;
        for (const cv::Point2d& p : slice.outline)
            found.outline.push_back((p + cv::Point2d(0.5, 0.5)) * search.to_photo -
                                    cv::Point2d(0.5, 0.5));
        slices.push_back(std::move(found));
    }
    return slices;
}

// Of the least solid slice: its area over that of its convex hull. 0 for no slice.
double solidity(const std::vector<FoundSlice>& slices) {
    double least = slices.empty() ? 0 : 1;
    for (const FoundSlice& slice : slices)
        least = std::min(least, solidity_of(slice.outline));
    return least;
}

// The polygon made `share` times as large about its middle, then scaled by `shrink`.
std::vector<cv::Point> resized(const std::vector<cv::Point>& polygon, double share, double shrink) {
    cv::Point2d middle;
    for (const cv::Point& p : polygon)
        middle += cv::Point2d(p) / static_cast<double>(polygon.size());
    std::vector<cv::Point> result;
    for (const cv::Point& p : polygon)
        result.push_back((middle + share * (cv::Point2d(p) - middle)) * shrink);
    return result;
}

// Nonzero where no bread can be, in a picture `shrink` times the photo's size.
cv::Mat no_bread(const SliceSearch& search, cv::Size size, double shrink) {
    cv::Mat mask(size, CV_8U, cv::Scalar(search.mat.empty() ? 0 : 255));
    if (!search.mat.empty()) cv::fillConvexPoly(mask, resized(search.mat, mat_reach, shrink), 0);
    for (const auto& polygon : search.not_bread)
        cv::fillConvexPoly(mask, resized(polygon, 1, shrink), 255);
    return mask;
}

// The mat between its edge and its middle, where slices seldom lie; empty without a mat.
cv::Mat margins_of(const SliceSearch& search, const cv::Mat& no_bread, double shrink) {
    if (search.mat.empty()) return {};
    cv::Mat margins = cv::Mat::zeros(no_bread.size(), CV_8U);
    cv::fillConvexPoly(margins, resized(search.mat, margin_from, shrink), 255);
    cv::fillConvexPoly(margins, resized(search.mat, margin_to, shrink), 0);
    margins.setTo(0, no_bread);
    return margins;
}

}  // namespace

std::vector<FoundSlice> find_slices(const cv::Mat& rgb, const SliceSearch& search) {
    const int long_side = std::max(rgb.cols, rgb.rows);
    const double shrink = std::min(1.0, static_cast<double>(search_side_px) / long_side);
    cv::Mat reduced;
    cv::resize(rgb, reduced, {}, shrink, shrink, cv::INTER_AREA);
    if (std::min(reduced.cols, reduced.rows) < 32) return {};
    SliceFeatures features = slice_features(reduced);
    ReducedSearch inner;
    inner.to_photo = 1 / shrink;
    inner.no_bread = no_bread(search, reduced.size(), shrink);
    inner.margins = margins_of(search, inner.no_bread, shrink);
    features.texture.setTo(0, inner.no_bread);
    inner.cores.least_radius = search.least_radius_px > 0
                                   ? search.least_radius_px * shrink
                                   : std::max(reduced.cols, reduced.rows) / 30.0;
    const auto photo_area = static_cast<double>(reduced.total());
    inner.cores.most_area =
        search.most_area_px2 > 0 ? search.most_area_px2 * shrink * shrink : photo_area;
    inner.cores.share = core_share;
    std::vector<FoundSlice> slices = cut_all(features, inner);
    if (solidity(slices) < least_solidity) {
        inner.cores.share = strict_core_share;
        std::vector<FoundSlice> strict = cut_all(features, inner);
        if (solidity(strict) > solidity(slices)) slices = std::move(strict);
    }
    sort_for_reading(slices);
    return slices;
}

}  // namespace loafmark::analysis
