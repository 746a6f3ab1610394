// The pipeline: photo, target, slices, plane, and for each slice its measures.
#include "analysis/measure.h"

#include <algorithm>
#include <cmath>
#include <memory>
#include <stdexcept>

#include <opencv2/imgproc.hpp>

#include "base_line.h"
#include "find_slices.h"
#include "find_target.h"
#include "geometry2d.h"
#include "learned_segmenter.h"
#include "measure_slice.h"
#include "photo.h"
#include "scale.h"

namespace loafmark::analysis {
namespace {

// Raised by every change that moves a measure.
constexpr std::string_view pipeline_version = "2";

cv::Point2d middle_of(const FoundSlice& slice) {
    cv::Point2d sum;
    for (const cv::Point2d& p : slice.outline)
        sum += p;
    return sum / static_cast<double>(slice.outline.size());
}

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

double marker_side_px(const SeenTarget& target) {
    double sum = 0;
    for (const SeenMarker& marker : target.markers)
        sum += cv::norm(marker.corners[1] - marker.corners[0]) / 2 +
               cv::norm(marker.corners[3] - marker.corners[0]) / 2;
    return sum / static_cast<double>(target.markers.size());
}

SliceSearch search_beside(const std::optional<SeenTarget>& target) {
    constexpr double least_radius_mm = 12;  // no slice is smaller; lines of print are
    SliceSearch search;
    if (!target) return search;
    search.not_bread = marker_places(*target);
    search.least_radius_px = least_radius_mm / marker_side_mm * marker_side_px(*target);
    return search;
}

// The slice's extent along its base, in photo pixels.
double width_in_photo(const FoundSlice& slice) {
    const cv::Point2d down = base_direction(slice.outline, {0, 1});
    const cv::Point2d across(-down.y, down.x);
    const auto [low, high] = std::minmax_element(
        slice.outline.begin(), slice.outline.end(),
        [&](const cv::Point2d& a, const cv::Point2d& b) { return a.dot(across) < b.dot(across); });
    return high->dot(across) - low->dot(across);
}

Scale scale_of(const WorkingPlane& plane, cv::Point2d at_photo) {
    Scale scale;
    scale.source = plane.source;
    if (!plane.has_scale()) return scale;
    constexpr double z95 = 1.959963984540054;
    const double mm =
        mm_per_pixel_at(plane.photo_from_plane, mapped(plane.photo_from_plane.inv(), at_photo));
    const double spread = z95 * plane.length_error * mm;
    scale.mm_per_pixel = Estimate{mm, mm - spread, mm + spread, {}, {}};
    scale.plane_height_mm = plane.height_mm;
    Homography h{};
    for (int r = 0; r < 3; ++r)
        for (int c = 0; c < 3; ++c)
            h[static_cast<std::size_t>(r)][static_cast<std::size_t>(c)] =
                plane.photo_from_plane(r, c) / plane.photo_from_plane(2, 2);
    scale.photo_from_plane = h;
    return scale;
}

Warning not_yet() {
    Warning warning{WarningCode::not_yet,
                    "some measures are defined but not built yet in this version",
                    {},
                    {}};
    for (const MeasureInfo& info : measure_catalogue)
        if (info.state == MeasureState::not_yet && info.origin == MeasureOrigin::photo)
            warning.concerns.push_back(info.id);
    return warning;
}

void collect(MeasuredSlice measured, Measurement& into) {
    into.reading.slices.push_back(std::move(measured.reading));
    for (Warning& warning : measured.warnings) {
        warning.slice = static_cast<int>(into.reading.slices.size());
        into.reading.warnings.push_back(std::move(warning));
    }
    if (measured.overlay) into.overlays.push_back(std::move(*measured.overlay));
    if (measured.maps) into.maps.push_back(std::move(*measured.maps));
    if (measured.picture) into.slice_pictures.push_back(std::move(*measured.picture));
}

// The learned segmenter; the classical one where this OpenCV cannot read the model.
std::unique_ptr<CellSegmenter> usual_segmenter() {
    try {
        return std::make_unique<LearnedSegmenter>();
    } catch (const cv::Exception&) {
        return std::make_unique<LocalContrastSegmenter>();
    }
}

std::string version_with(const CellSegmenter& segmenter) {
    return std::string(pipeline_version) + " " + segmenter.name();
}

}  // namespace

void MeasureOptions::check() const {
    const auto refuse = [](bool bad, const char* what) {
        if (bad) throw std::invalid_argument(what);
    };
    for (const Millimetres t : thickness)
        refuse(!(t.count() >= 0 && t.count() <= 300),
               "a slice's thickness lies between 0 and 300 mm");
    refuse(loaf_width && !(loaf_width->count() >= 10 && loaf_width->count() <= 1000),
           "a loaf's width lies between 10 and 1000 mm");
    refuse(print_check && !(print_check->count() >= 50 && print_check->count() <= 150),
           "the printed 100 mm line measures between 50 and 150 mm");
    refuse(base.kind == BaseHint::Kind::line && !base.line, "a base line needs its two points");
    if (base.line)
        refuse(std::hypot((*base.line)[1].x - (*base.line)[0].x,
                          (*base.line)[1].y - (*base.line)[0].y) < 10,
               "the base line's two points lie at least 10 pixels apart");
}

std::string analysis_version() {
    return version_with(*usual_segmenter());
}

Measurement measure_photo(const std::filesystem::path& file, const MeasureOptions& options) {
    options.check();
    const Photo photo = load_photo(file);
    cv::Mat grey;
    cv::cvtColor(photo.rgb, grey, cv::COLOR_RGB2GRAY);

    Measurement measurement;
    PhotoReading& reading = measurement.reading;
    reading.photo = photo.name;
    reading.taken = photo.taken;
    const std::unique_ptr<CellSegmenter> segmenter = usual_segmenter();
    reading.analysis_version = version_with(*segmenter);

    const std::optional<SeenTarget> target = find_target(grey);
    const std::vector<FoundSlice> slices = find_slices(photo.rgb, search_beside(target));
    if (slices.empty()) return measurement;

    const WorkingPlane plane =
        target ? plane_from_target(*target, photo, options, middle_of(slices.front()))
               : plane_without_target(options, width_in_photo(slices.front()));
    reading.scale = scale_of(plane, middle_of(slices.front()));
    reading.warnings = plane.warnings;
    if (slices.size() > 1)
        reading.warnings.push_back({WarningCode::several_slices,
                                    std::to_string(slices.size()) +
                                        " slices are seen; all are "
                                        "measured, left to right, top to bottom",
                                    {},
                                    {}});
    for (const FoundSlice& slice : slices)
        collect(measure_slice(photo.rgb, slice, plane, options, *segmenter), measurement);
    reading.warnings.push_back(not_yet());
    return measurement;
}

}  // namespace loafmark::analysis
