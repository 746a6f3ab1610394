#include "search_beside.h"

#include <vector>

#include <opencv2/imgproc.hpp>

namespace loafmark::analysis {
namespace {

// Markers with their quiet zones, photo pixels.
std::vector<std::vector<cv::Point>> marker_places(const SeenTarget& target) {
    constexpr double grown = 1.6;  // the quiet zone and the blur around it
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

// Of all the points: a strip's paper lies between its markers.
std::vector<cv::Point> hull_of(const std::vector<std::vector<cv::Point>>& places) {
    std::vector<cv::Point> points, hull;
    for (const auto& place : places)
        points.insert(points.end(), place.begin(), place.end());
    cv::convexHull(points, hull);
    return hull;
}

// The sheet's field between its four markers and a little beyond, photo pixels.
std::vector<cv::Point> mat_place(const SeenTarget& target) {
    constexpr double grown = 1.12;  // a slice may reach over the printed frame
    std::vector<cv::Point2f> corners;
    cv::Point2f middle;
    for (const SeenMarker& marker : target.markers)
        for (const cv::Point2d& p : marker.corners)
            corners.emplace_back(p);
    std::vector<cv::Point2f> hull;
    cv::convexHull(corners, hull);
    for (const cv::Point2f& p : hull)
        middle += p / static_cast<float>(hull.size());
    std::vector<cv::Point> place;
    for (const cv::Point2f& p : hull) {
        const cv::Point2d q = cv::Point2d(middle) + grown * cv::Point2d(p - middle);
        place.emplace_back(static_cast<int>(q.x), static_cast<int>(q.y));
    }
    return place;
}

}  // namespace

SliceSearch search_beside(const std::optional<SeenTarget>& target) {
    constexpr double least_radius_mm = 12;  // no slice is smaller; lines of print are
    constexpr double most_area_mm2 = 260 * 180;
    SliceSearch search;
    if (!target) return search;
    search.not_bread = marker_places(*target);
    if (target->kind == TargetKind::strip) search.not_bread.push_back(hull_of(search.not_bread));
    const double pixels_per_mm = marker_side_px(*target) / marker_side_mm;
    search.least_radius_px = least_radius_mm * pixels_per_mm;
    search.most_area_px2 = most_area_mm2 * pixels_per_mm * pixels_per_mm;
    if (target->kind != TargetKind::strip && target->markers.size() == 4)
        search.within = mat_place(*target);
    return search;
}

}  // namespace loafmark::analysis
