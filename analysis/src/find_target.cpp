#include "find_target.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include <opencv2/calib3d.hpp>
#include <opencv2/imgproc.hpp>

#include "aruco_compat.h"
#include "colour.h"
#include "photo_limits.h"
#include "shrunk.h"

namespace loafmark::analysis {
namespace {

// Markers are found on a picture of this long side and refined on the full one: detection costs
// grow with the pixels, and a marker of 24 mm on a photographed mat is still 60 pixels wide.
constexpr int search_side_px = 1400;

double side_length(const std::vector<cv::Point2f>& corners) {
    return std::min(cv::norm(corners[1] - corners[0]), cv::norm(corners[3] - corners[0]));
}

// Linear light of a grey picture; CV_32F. Blur mixes light, not its codes: by these, paper would
// reach into the ink and draw every marker smaller.
cv::Mat light_of(const cv::Mat& grey) {
    static const cv::Mat of_code = [] {
        cv::Mat table(1, 256, CV_32F);
        for (int code = 0; code < 256; ++code)
            table.at<float>(code) = static_cast<float>(linear_light(code / 255.0));
        return table;
    }();
    cv::Mat light;
    cv::LUT(grey, of_code, light);
    return light;
}

// Places where brightness steps from the marker's ink to the paper, on rays across its side from
// `a` to `b`, each `reach` pixels long to either side. Ink lies right of the way from a to b.
std::vector<cv::Point2f> edge_places(const cv::Mat& light, cv::Point2d a, cv::Point2d b,
                                     double reach) {
    constexpr int rays = 24;
    constexpr double step = 0.25;
    constexpr double least_contrast = 20 / 255.0;
    const cv::Point2d out = cv::Point2d(b.y - a.y, a.x - b.x) / cv::norm(b - a);
    const int columns = 2 * static_cast<int>(reach / step) + 1;
    const double first = -(columns - 1) / 2 * step;
    cv::Mat map(rays, columns, CV_32FC2), profiles;
    // The corners themselves are rounded by any blur; the rays keep clear of them.
    const auto foot = [&](int ray) { return a + (0.12 + 0.76 * ray / (rays - 1)) * (b - a); };
    for (int r = 0; r < rays; ++r)
        for (int c = 0; c < columns; ++c)
            map.at<cv::Point2f>(r, c) = foot(r) + (first + c * step) * out;
    cv::remap(light, profiles, map, cv::noArray(), cv::INTER_LINEAR, cv::BORDER_REPLICATE);
    std::vector<cv::Point2f> places;
    for (int r = 0; r < rays; ++r) {
        const cv::Mat profile = profiles.row(r);
        const double ink = cv::mean(profile.colRange(0, columns / 4 + 1))[0];
        const double paper = cv::mean(profile.colRange(columns - columns / 4 - 1, columns))[0];
        if (srgb_of(paper) - srgb_of(ink) < least_contrast) continue;
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

std::optional<Side> side_of(const cv::Mat& light, cv::Point2d a, cv::Point2d b, double reach) {
    constexpr std::size_t fewest_places = 10;
    const std::vector<cv::Point2f> places = edge_places(light, a, b, reach);
    if (places.size() < fewest_places) return std::nullopt;
    cv::Vec4f line;
    cv::fitLine(places, line, cv::DIST_HUBER, 0, 0.01, 0.01);
    return Side{{line[2], line[3]}, {line[0], line[1]}};
}

// Corners where the marker's sides meet. Blur rounds a corner and draws it inwards, but leaves a
// straight side where it is. Unchanged where a side is not seen well enough. Rays reach `furthest`
// pixels at most.
std::vector<cv::Point2f> where_sides_meet(const cv::Mat& light,
                                          const std::vector<cv::Point2f>& corners,
                                          double furthest) {
    // Rays stay within the black border module and the quiet zone beyond it.
    const double reach = std::clamp(0.45 * side_length(corners) / marker_modules, 2.0, furthest);
    std::vector<cv::Point2f> met = corners;
    for (std::size_t i = 0; i < 4; ++i) {
        const cv::Point2d before = corners[(i + 3) % 4], here = corners[i];
        const cv::Point2d after = corners[(i + 1) % 4];
        const auto one = side_of(light, before, here, reach);
        const auto other = side_of(light, here, after, reach);
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
    // Light of the marker's surroundings alone: of the whole photo it would take long.
    constexpr int around = 40;
    const cv::Rect box = cv::boundingRect(corners);
    const cv::Rect near =
        cv::Rect(box.x - around, box.y - around, box.width + 2 * around, box.height + 2 * around) &
        cv::Rect({0, 0}, grey.size());
    const cv::Point2f start = near.tl();
    const cv::Mat light = light_of(grey(near));
    for (cv::Point2f& p : corners)
        p -= start;
    // Later rounds have the steps in the middle of their rays. Short rays then leave out most of
    // the paper's noise, and a blur that they cut off they cut off on both sides alike.
    for (const double furthest : {14.0, 14.0, 5.0, 5.0})
        corners = where_sides_meet(light, corners, furthest);
    for (cv::Point2f& p : corners)
        p += start;
    SeenMarker marker{id, {}};
    std::copy(corners.begin(), corners.end(), marker.corners.begin());
    return marker;
}

std::vector<SeenMarker> all_markers(const cv::Mat& grey, int long_side) {
    const double scale =
        std::max(1.0, static_cast<double>(std::max(grey.cols, grey.rows)) / long_side);
    const cv::Mat reduced = scale > 1 ? shrunk(grey, 1 / scale) : grey;
    const double true_scale = static_cast<double>(grey.cols) / reduced.cols;
    const RawMarkers raw = detect_markers(reduced);
    std::vector<SeenMarker> markers;
    for (std::size_t i = 0; i < raw.ids.size(); ++i)
        if (target_of_marker(raw.ids[i]))
            markers.push_back(refined(raw.ids[i], raw.corners[i], true_scale, grey));
    return markers;
}

using Markers = std::vector<SeenMarker>;

// How far the markers miss the printed layout on a flat sheet, root mean square in mm on paper.
double misfit_mm(TargetKind kind, const Markers& markers) {
    std::vector<cv::Point2d> on_paper, in_photo;
    for (const SeenMarker& seen : markers)
        for (const TargetMarker& printed : markers_of(kind)) {
            if (printed.id != seen.id) continue;
            const auto corners = printed_corners(printed);
            on_paper.insert(on_paper.end(), corners.begin(), corners.end());
            in_photo.insert(in_photo.end(), seen.corners.begin(), seen.corners.end());
        }
    const cv::Mat paper_from_photo = cv::findHomography(in_photo, on_paper);
    if (paper_from_photo.empty()) return std::numeric_limits<double>::infinity();
    std::vector<cv::Point2d> back;
    cv::perspectiveTransform(in_photo, back, paper_from_photo);
    double sum = 0;
    for (std::size_t i = 0; i < back.size(); ++i)
        sum += (back[i] - on_paper[i]).dot(back[i] - on_paper[i]);
    return std::sqrt(sum / static_cast<double>(back.size()));
}

// All ways to take at most one marker of each id: of one mat there are few, of several mats few
// dozens.
std::vector<Markers> possible_sheets(TargetKind kind, const Markers& seen) {
    constexpr std::size_t most_of_one_id = 4;
    std::vector<Markers> sheets(1);
    for (const TargetMarker& printed : markers_of(kind)) {
        const std::vector<Markers> without = sheets;
        std::size_t of_this_id = 0;
        for (const SeenMarker& marker : seen) {
            if (marker.id != printed.id || of_this_id++ == most_of_one_id) continue;
            for (Markers sheet : without) {
                sheet.push_back(marker);
                sheets.push_back(std::move(sheet));
            }
        }
    }
    return sheets;
}

// The most markers that lie on one flat sheet as printed; of as many, those that fit best; of
// single ones, the largest.
Markers one_sheet(TargetKind kind, const Markers& seen) {
    Markers best;
    double best_misfit = std::numeric_limits<double>::infinity();
    for (const Markers& sheet : possible_sheets(kind, seen)) {
        if (sheet.empty() || sheet.size() < best.size()) continue;
        const double misfit = sheet.size() == 1
                                  ? -cv::norm(sheet[0].corners[2] - sheet[0].corners[0])
                                  : misfit_mm(kind, sheet);
        const bool fits = sheet.size() == 1 || misfit <= limits::most_sheet_misfit_mm;
        if (!fits || (sheet.size() == best.size() && misfit >= best_misfit)) continue;
        best = sheet;
        best_misfit = misfit;
    }
    return best;
}

}  // namespace

std::array<cv::Point2d, 4> printed_corners(const TargetMarker& marker) {
    const double h = marker_side_mm / 2;
    const cv::Point2d c(marker.centre_mm.x, marker.centre_mm.y);
    return {c + cv::Point2d(-h, -h), c + cv::Point2d(h, -h), c + cv::Point2d(h, h),
            c + cv::Point2d(-h, h)};
}

double marker_side_px(const SeenTarget& target) {
    double sum = 0;
    for (const SeenMarker& marker : target.markers)
        sum += cv::norm(marker.corners[1] - marker.corners[0]) / 2 +
               cv::norm(marker.corners[3] - marker.corners[0]) / 2;
    return sum / static_cast<double>(target.markers.size());
}

std::optional<SeenTarget> find_target(const cv::Mat& grey) {
    std::vector<SeenMarker> markers = all_markers(grey, search_side_px);
    // A far or small target may need every pixel.
    if (markers.empty() && std::max(grey.cols, grey.rows) > search_side_px)
        markers = all_markers(grey, 2 * search_side_px);
    if (markers.empty()) return std::nullopt;

    std::optional<SeenTarget> best;
    for (const TargetKind kind : {TargetKind::a4_mat, TargetKind::letter_mat, TargetKind::strip}) {
        SeenTarget target{kind, one_sheet(kind, markers), false};
        if (target.markers.empty()) continue;
        if (!best || target.markers.size() > best->markers.size()) best = std::move(target);
    }
    best->others_seen = best->markers.size() < markers.size();
    return best;
}

bool seen_mirrored(const cv::Mat& grey) {
    cv::Mat mirrored;
    cv::flip(grey, mirrored, 1);
    return !all_markers(mirrored, search_side_px).empty();
}

}  // namespace loafmark::analysis
