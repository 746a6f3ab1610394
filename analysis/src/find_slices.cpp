#include "find_slices.h"

#include <algorithm>
#include <cmath>

#include <opencv2/imgproc.hpp>

#include "contours.h"
#include "face_network.h"
#include "face_parts.h"
#include "shrunk.h"

namespace loafmark::analysis {
namespace {

constexpr int whole_side_px = 512;  // longer side of the picture that the first look takes
// Longer sides of those that the second look takes: on real halved loaves whose torn crumb a fine
// look takes for crust, coarser ones see one face.
const std::vector<int> near_sides_px = {448, 320, 256};
constexpr double near_share = 1.35;  // of the slice's own size that the second look takes in
// A second look is of the same slice where both looks share this much of the smaller one.
constexpr double same_share = 0.5;
// Looks whose finds differ more than this in area are repeated round the new one.
constexpr double least_alike = 0.85;
// Further slices are not much smaller than the largest: a share of its area.
constexpr double least_share = 0.08;
constexpr double least_side_px = 32;
constexpr double unknown_radius_share = 1 / 30.0;  // of the photo's longer side

cv::Point2d scaled(cv::Point2d p, double by) {
    return (p + cv::Point2d(0.5, 0.5)) * by - cv::Point2d(0.5, 0.5);
}

cv::Rect2d box_of(const Polyline& outline) {
    cv::Point2d low = outline.front(), high = low;
    for (const cv::Point2d& p : outline) {
        low = {std::min(low.x, p.x), std::min(low.y, p.y)};
        high = {std::max(high.x, p.x), std::max(high.y, p.y)};
    }
    return {low, high};
}

void sort_for_reading(std::vector<FoundSlice>& slices) {
    const auto middle = [](const FoundSlice& s) {
        const cv::Rect2d box = box_of(s.outline);
        return cv::Point2d(box.x + box.width / 2, box.y + box.height / 2);
    };
    std::sort(slices.begin(), slices.end(),
              [&](const FoundSlice& a, const FoundSlice& b) { return middle(a).x < middle(b).x; });
    // Slices whose middles lie within half a width of each other stand in one column.
    for (auto from = slices.begin(); from != slices.end();) {
        const cv::Rect2d first = box_of(from->outline);
        auto to = std::next(from);
        while (to != slices.end() && middle(*to).x < first.x + first.width)
            ++to;
        std::sort(from, to, [&](const FoundSlice& a, const FoundSlice& b) {
            return middle(a).y < middle(b).y;
        });
        from = to;
    }
}

bool touches_border(const Polyline& outline, cv::Size photo) {
    // Of the photo's longer side: the network's last pixel.
    const double margin = 0.004 * std::max(photo.width, photo.height);
    return std::any_of(outline.begin(), outline.end(), [&](const cv::Point2d& p) {
        return p.x < margin || p.y < margin || p.x > photo.width - 1 - margin ||
               p.y > photo.height - 1 - margin;
    });
}

class SliceFinder {
  public:
    SliceFinder(const cv::Mat& rgb, const SliceSearch& search) : rgb_(rgb), search_(search) {
        const int long_side = std::max(rgb.cols, rgb.rows);
        least_radius_ =
            search.least_radius_px > 0 ? search.least_radius_px : unknown_radius_share * long_side;
    }

    [[nodiscard]] std::vector<FoundSlice> all() const {
        std::vector<FoundSlice> slices;
        for (const Polyline& place : first_look())
            for (FoundSlice& slice : nearest_look(place))
                if (std::none_of(slices.begin(), slices.end(), [&](const FoundSlice& other) {
                        return same_slice(slice.outline, other.outline);
                    }))
                    slices.push_back(std::move(slice));
        if (slices.empty()) return slices;
        double largest = 0;
        for (const FoundSlice& slice : slices)
            largest = std::max(largest, area_inside(slice.outline));
        std::erase_if(slices, [&](const FoundSlice& slice) {
            return area_inside(slice.outline) < least_share * largest;
        });
        sort_for_reading(slices);
        return slices;
    }

  private:
    // Rough outlines, photo pixels.
    [[nodiscard]] std::vector<Polyline> first_look() const {
        const double shrink =
            std::min(1.0, static_cast<double>(whole_side_px) / std::max(rgb_.cols, rgb_.rows));
        const cv::Mat small = shrunk(rgb_, shrink);
        cv::Mat face = network_.faces_in(small, {whole_side_px});
        for (const auto& polygon : search_.not_bread) {
            std::vector<cv::Point> there;
            for (const cv::Point& p : polygon)
                there.emplace_back(scaled(p, shrink));
            cv::fillConvexPoly(face, there, cv::Scalar(0));
        }
        std::vector<Polyline> places;
        for (const cv::Mat& part : face_parts(face, least_radius_ * shrink)) {
            Polyline outline = part_outline(face, part);
            for (cv::Point2d& p : outline)
                p = scaled(p, 1 / shrink);
            if (small_enough(outline)) places.push_back(std::move(outline));
        }
        return places;
    }

    [[nodiscard]] bool small_enough(const Polyline& outline) const {
        return search_.most_area_px2 <= 0 || area_inside(outline) < search_.most_area_px2;
    }

    // Where the first look took in too much, or half a slice, the second shows where to look.
    [[nodiscard]] std::vector<FoundSlice> nearest_look(const Polyline& place) const {
        std::vector<FoundSlice> slices;
        for (FoundSlice& slice : nearer_look(place)) {
            const double share = area_inside(slice.outline) / area_inside(place);
            if (share > least_alike && share < 1 / least_alike)
                slices.push_back(std::move(slice));
            else
                for (FoundSlice& again : nearer_look(slice.outline))
                    slices.push_back(std::move(again));
        }
        return slices;
    }

    // One slice seen from near, or two that the first look took for one.
    [[nodiscard]] std::vector<FoundSlice> nearer_look(const Polyline& place) const {
        const cv::Rect2d box = box_of(place);
        const double side = near_share * std::max(box.width, box.height);
        const cv::Point2d middle(box.x + box.width / 2, box.y + box.height / 2);
        // Only what the photo shows: beyond its border the network would see what is not there.
        const cv::Rect window =
            cv::Rect(static_cast<int>(middle.x - side / 2), static_cast<int>(middle.y - side / 2),
                     static_cast<int>(side), static_cast<int>(side)) &
            cv::Rect({0, 0}, rgb_.size());
        const double shrink =
            static_cast<double>(near_sides_px.front()) / std::max(window.width, window.height);
        cv::Mat small;
        if (shrink < 1)
            small = shrunk(rgb_(window), shrink);
        else
            cv::resize(rgb_(window), small, {}, shrink, shrink, cv::INTER_LINEAR);
        FoundSlice look;
        look.face = network_.faces_in(small, near_sides_px);
        const double kx = static_cast<double>(window.width) / small.cols,
                     ky = static_cast<double>(window.height) / small.rows;
        look.photo_from_face = {
            kx, 0, window.x + 0.5 * kx - 0.5, 0, ky, window.y + 0.5 * ky - 0.5, 0, 0, 1};
        std::vector<FoundSlice> slices;
        for (const cv::Mat& part : face_parts(look.face, least_radius_ * shrink)) {
            FoundSlice slice = look;
            slice.outline = mapped(look.photo_from_face, part_outline(look.face, part));
            if (slice.outline.size() < 8 || !small_enough(slice.outline) ||
                !lies_in(slice.outline, place))
                continue;
            slice.cut_by_frame = touches_border(slice.outline, rgb_.size());
            slices.push_back(std::move(slice));
        }
        return slices;
    }

    // In a small picture, which tells overlap well enough.
    [[nodiscard]] cv::Mat small_mask(const Polyline& outline) const {
        constexpr double side = 256;
        const double shrink = side / std::max(rgb_.cols, rgb_.rows);
        Polyline small;
        for (const cv::Point2d& p : outline)
            small.push_back(scaled(p, shrink));
        return filled(small, cv::Size(static_cast<int>(rgb_.cols * shrink) + 1,
                                      static_cast<int>(rgb_.rows * shrink) + 1));
    }

    [[nodiscard]] bool lies_in(const Polyline& near, const Polyline& place) const {
        const cv::Mat mask = small_mask(near);
        return cv::countNonZero(mask & small_mask(place)) > same_share * cv::countNonZero(mask);
    }

    [[nodiscard]] bool same_slice(const Polyline& a, const Polyline& b) const {
        const cv::Mat one = small_mask(a), other = small_mask(b);
        return cv::countNonZero(one & other) >
               same_share * std::min(cv::countNonZero(one), cv::countNonZero(other));
    }

    const cv::Mat& rgb_;
    const SliceSearch& search_;
    double least_radius_ = 0;  // photo pixels
    FaceNetwork network_;
};

}  // namespace

std::vector<FoundSlice> find_slices(const cv::Mat& rgb, const SliceSearch& search) {
    if (std::min(rgb.cols, rgb.rows) < least_side_px) return {};
    return SliceFinder(rgb, search).all();
}

}  // namespace loafmark::analysis
