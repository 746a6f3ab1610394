#include "search_beside.h"

#include <vector>

#include <opencv2/imgproc.hpp>

namespace loafmark::analysis {
namespace {

// Markers, each `grown` times as large, photo pixels.
std::vector<std::vector<cv::Point>> marker_places(const SeenTarget& target, double grown) {
    std::vector<std::vector<cv::Point>> places;
    for (const SeenMarker& marker : target.markers) {
        cv::Point2d middle;
        for (const cv::Point2d& p : marker.corners)
            middle += p / 4;
        std::vector<cv::Point> place;
        for (const cv::Point2d& p : marker.corners) {
            const cv::Point2d q = middle + grown * (p - middle);
            place.emplace_back(static_cast<int>(q.x), static_cast<int>(q.y));
        }
        places.push_back(std::move(place));
    }
    return places;
}

std::vector<cv::Point> hull_round(const std::vector<std::vector<cv::Point>>& places) {
    std::vector<cv::Point> points, hull;
    for (const auto& place : places)
        points.insert(points.end(), place.begin(), place.end());
    cv::convexHull(points, hull);
    return hull;
}

}  // namespace

SliceSearch search_beside(const std::optional<SeenTarget>& target) {
    constexpr double least_radius_mm = 12;   // no slice is smaller; lines of print are
    constexpr double with_quiet_zone = 1.6;  // and the blur around it
    constexpr double most_area_mm2 = 260 * 180;
    SliceSearch search;
    if (!target) return search;
    search.not_bread = marker_places(*target, with_quiet_zone);
    // A strip's paper lies between its markers.
    if (target->kind == TargetKind::strip) search.not_bread.push_back(hull_round(search.not_bread));
    const double pixels_per_mm = marker_side_px(*target) / marker_side_mm;
    search.least_radius_px = least_radius_mm * pixels_per_mm;
    search.most_area_px2 = most_area_mm2 * pixels_per_mm * pixels_per_mm;
    return search;
}

}  // namespace loafmark::analysis
