#include "find_target.h"

#include <algorithm>
#include <cmath>
#include <map>

#include <opencv2/imgproc.hpp>

#include "aruco_compat.h"

namespace loafmark::analysis {
namespace {

// Markers are found on a picture of this long side and refined on the full one: detection costs
// grow with the pixels, and a marker of 24 mm on a photographed mat is still 60 pixels wide.
constexpr int search_side_px = 1400;

double side_length(const std::vector<cv::Point2f>& corners) {
    return std::min(cv::norm(corners[1] - corners[0]), cv::norm(corners[3] - corners[0]));
}

// Places where brightness steps from the marker's ink to the paper, on rays across its side from
// `a` to `b`, each `reach` pixels long to either side. Ink lies right of the way from a to b.
std::vector<cv::Point2f> edge_places(const cv::Mat& grey, cv::Point2d a, cv::Point2d b,
                                     double reach) {
    constexpr int rays = 24;
    constexpr double step = 0.25;
    constexpr double least_contrast = 20;
    const cv::Point2d out = cv::Point2d(b.y - a.y, a.x - b.x) / cv::norm(b - a);
    const int columns = 2 * static_cast<int>(reach / step) + 1;
    const double first = -(columns - 1) / 2 * step;
    cv::Mat map(rays, columns, CV_32FC2), profiles;
    // The corners themselves are rounded by any blur; the rays keep clear of them.
    const auto foot = [&](int ray) { return a + (0.12 + 0.76 * ray / (rays - 1)) * (b - a); };
    for (int r = 0; r < rays; ++r)
        for (int c = 0; c < columns; ++c)
            map.at<cv::Point2f>(r, c) = foot(r) + (first + c * step) * out;
    cv::remap(grey, profiles, map, cv::noArray(), cv::INTER_LINEAR, cv::BORDER_REPLICATE);
    std::vector<cv::Point2f> places;
    for (int r = 0; r < rays; ++r) {
        const cv::Mat profile = profiles.row(r);
        const double ink = cv::mean(profile.colRange(0, columns / 4 + 1))[0];
        const double paper = cv::mean(profile.colRange(columns - columns / 4 - 1, columns))[0];
        if (paper - ink < least_contrast) continue;
        // The length of paper on the ray, whatever blur the step went through.
        const double on_paper = (cv::sum(profile)[0] - columns * ink) / (paper - ink) * step;
        const double edge = first + (columns - 0.5) * step - on_paper;
        if (std::abs(edge) < reach) places.push_back(foot(r) + edge * out);
    }
    return places;
}

struct Side {
    cv::Point2d at, along;
};

std::optional<Side> side_of(const cv::Mat& grey, cv::Point2d a, cv::Point2d b, double reach) {
    constexpr std::size_t fewest_places = 10;
    const std::vector<cv::Point2f> places = edge_places(grey, a, b, reach);
    if (places.size() < fewest_places) return std::nullopt;
    cv::Vec4f line;
    cv::fitLine(places, line, cv::DIST_HUBER, 0, 0.01, 0.01);
    return Side{{line[2], line[3]}, {line[0], line[1]}};
}

// Corners where the marker's sides meet. Blur rounds a corner and draws it inwards, but leaves a
// straight side where it is. Unchanged where a side is not seen well enough.
std::vector<cv::Point2f> where_sides_meet(const cv::Mat& grey,
                                          const std::vector<cv::Point2f>& corners) {
    // Rays stay within the black border module and the quiet zone beyond it.
    const double reach = std::clamp(0.45 * side_length(corners) / marker_modules, 2.0, 14.0);
    std::vector<cv::Point2f> met = corners;
    for (std::size_t i = 0; i < 4; ++i) {
        const cv::Point2d before = corners[(i + 3) % 4], here = corners[i];
        const cv::Point2d after = corners[(i + 1) % 4];
        const auto one = side_of(grey, before, here, reach);
        const auto other = side_of(grey, here, after, reach);
        if (!one || !other) continue;
        const double across = one->along.cross(other->along);
        if (std::abs(across) < 0.2) continue;
        const cv::Point2d corner =
            one->at + (other->at - one->at).cross(other->along) / across * one->along;
        if (cv::norm(corner - here) < 2 * reach) met[i] = corner;
    }
    return met;
}

// Corners found in the reduced picture, moved to where the full picture has them. Pixel centres are
// at integers, so scaling goes about the pixels' corners.
SeenMarker refined(int id, std::vector<cv::Point2f> corners, double scale, const cv::Mat& grey) {
    for (cv::Point2f& p : corners)
        p = {static_cast<float>((p.x + 0.5) * scale - 0.5),
             static_cast<float>((p.y + 0.5) * scale - 0.5)};
    // Later rounds have the steps in the middle of their rays.
    for (int round = 0; round < 3; ++round)
        corners = where_sides_meet(grey, corners);
    SeenMarker marker{id, {}};
    std::copy(corners.begin(), corners.end(), marker.corners.begin());
    return marker;
}

std::vector<SeenMarker> all_markers(const cv::Mat& grey, int long_side) {
    const double scale =
        std::max(1.0, static_cast<double>(std::max(grey.cols, grey.rows)) / long_side);
    cv::Mat reduced = grey;
    if (scale > 1) cv::resize(grey, reduced, {}, 1 / scale, 1 / scale, cv::INTER_AREA);
    const double true_scale = static_cast<double>(grey.cols) / reduced.cols;
    const RawMarkers raw = detect_markers(reduced);
    std::vector<SeenMarker> markers;
    for (std::size_t i = 0; i < raw.ids.size(); ++i)
        if (target_of_marker(raw.ids[i]))
            markers.push_back(refined(raw.ids[i], raw.corners[i], true_scale, grey));
    return markers;
}

}  // namespace

std::array<cv::Point2d, 4> printed_corners(const TargetMarker& marker) {
    const double h = marker_side_mm / 2;
    const cv::Point2d c(marker.centre_mm.x, marker.centre_mm.y);
    return {c + cv::Point2d(-h, -h), c + cv::Point2d(h, -h), c + cv::Point2d(h, h),
            c + cv::Point2d(-h, h)};
}

std::optional<SeenTarget> find_target(const cv::Mat& grey) {
    std::vector<SeenMarker> markers = all_markers(grey, search_side_px);
    // A far or small target may need every pixel.
    if (markers.empty() && std::max(grey.cols, grey.rows) > search_side_px)
        markers = all_markers(grey, 2 * search_side_px);
    if (markers.empty()) return std::nullopt;

    std::map<TargetKind, SeenTarget> targets;
    for (const SeenMarker& marker : markers) {
        SeenTarget& target = targets[*target_of_marker(marker.id)];
        const bool twice = std::any_of(target.markers.begin(), target.markers.end(),
                                       [&](const SeenMarker& m) { return m.id == marker.id; });
        if (twice)
            target.others_seen = true;
        else
            target.markers.push_back(marker);
    }
    auto best = std::max_element(targets.begin(), targets.end(), [](const auto& a, const auto& b) {
        return a.second.markers.size() < b.second.markers.size();
    });
    best->second.kind = best->first;
    if (targets.size() > 1) best->second.others_seen = true;
    return best->second;
}

}  // namespace loafmark::analysis
