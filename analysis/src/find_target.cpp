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

// Corners found in the reduced picture, moved to where the full picture has them. Pixel centres are
// at integers, so scaling goes about the pixels' corners.
SeenMarker refined(int id, std::vector<cv::Point2f> corners, double scale, const cv::Mat& grey) {
    for (cv::Point2f& p : corners)
        p = {static_cast<float>((p.x + 0.5) * scale - 0.5),
             static_cast<float>((p.y + 0.5) * scale - 0.5)};
    // The window stays within the black border module and the quiet zone beyond it.
    const double module = side_length(corners) / marker_modules;
    const int window = std::clamp(static_cast<int>(0.45 * module), 2, 14);
    cv::cornerSubPix(grey, corners, {window, window}, {-1, -1},
                     {cv::TermCriteria::EPS | cv::TermCriteria::COUNT, 40, 0.01});
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
