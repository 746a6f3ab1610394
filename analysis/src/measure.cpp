// The pipeline: photo, target, slices, plane, and for each slice its measures.
#include "analysis/measure.h"

#include <algorithm>
#include <cmath>
#include <memory>
#include <stdexcept>

#include <opencv2/imgproc.hpp>

#include "base_side.h"
#include "built_in_models.h"
#include "find_slices.h"
#include "find_target.h"
#include "geometry2d.h"
#include "learned_segmenter.h"
#include "measure_slice.h"
#include "photo.h"
#include "photo_limits.h"
#include "photo_quality.h"
#include "quantile.h"
#include "scale.h"
#include "search_beside.h"

namespace loafmark::analysis {
namespace {

// Raised by every change that moves a measure.
constexpr std::string_view pipeline_version = "5";

cv::Point2d middle_of(const FoundSlice& slice) {
    cv::Point2d sum;
    for (const cv::Point2d& p : slice.outline)
        sum += p;
    return sum / static_cast<double>(slice.outline.size());
}

// The slice's extent along its base, in photo pixels.
double width_in_photo(const FoundSlice& slice) {
    const cv::Point2d down = base_side(slice.outline, {0, 1}).direction;
    const cv::Point2d across(-down.y, down.x);
    const auto [low, high] = std::minmax_element(
        slice.outline.begin(), slice.outline.end(),
        [&](const cv::Point2d& a, const cv::Point2d& b) { return a.dot(across) < b.dot(across); });
    return high->dot(across) - low->dot(across);
}

Scale scale_of(const WorkingPlane& plane, cv::Point2d at_photo) {
    Scale scale;
    scale.source = plane.source;
    scale.target = plane.target;
    if (!plane.has_scale()) return scale;
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

// A known width holds for the outline as refined; the rough one is some percent off. A second round
// takes what the first leaves, since the frame's pixels follow the scale.
WorkingPlane plane_by_width(const Photo& photo, const FoundSlice& slice,
                            const MeasureOptions& options) {
    WorkingPlane plane = plane_without_target(options, width_in_photo(slice));
    if (!options.loaf_width || slice.cut_by_frame) return plane;
    for (int round = 0; round < 2; ++round)
        plane = stretched(plane, refined_width(photo.rgb, slice, plane, options),
                          options.loaf_width->count());
    return plane;
}

// Without a scale where the target was seen from too far aside.
WorkingPlane plane_of(const std::optional<SeenTarget>& target, const Photo& photo,
                      const cv::Mat& grey, const FoundSlice& slice, const MeasureOptions& options) {
    if (!target) return plane_by_width(photo, slice, options);
    WorkingPlane plane = plane_from_target(*target, photo, options, middle_of(slice));
    const auto spread = edge_spread_px(*target, grey);
    if (spread) plane.edge_spread = *spread * marker_side_mm / marker_side_px(*target);
    if (plane.has_scale()) return plane;
    WorkingPlane unscaled = plane_without_target({}, width_in_photo(slice));
    unscaled.warnings = plane.warnings;
    return unscaled;
}

// All of the photo is one slice, which its edge cuts.
FoundSlice whole_frame(const cv::Mat& rgb) {
    const double right = rgb.cols - 1, bottom = rgb.rows - 1;
    FoundSlice frame;
    frame.outline = {{0, 0}, {right, 0}, {right, bottom}, {0, bottom}};
    frame.cut_by_frame = true;
    return frame;
}

WorkingPlane plane_of_crumb(MillimetresPerPixel scale) {
    WorkingPlane plane;
    plane.source = ScaleSource::known_length;
    plane.photo_from_plane = cv::Matx33d::diag({1 / scale.count(), 1 / scale.count(), 1});
    return plane;
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

Warning cut_warm(Hours since_oven) {
    return {WarningCode::cut_warm,
            "the loaf was cut " + std::to_string(std::lround(60 * since_oven.count())) +
                " minutes after the oven: smeared cells are likely, and openness reads low",
            {Measure::openness, Measure::coarseness, Measure::cell_count},
            {}};
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
    return std::string(pipeline_version) + " " + name_of(BuiltInModel::slice_faces) + " " +
           segmenter.name();
}

}  // namespace

void MeasureOptions::check() const {
    const auto refuse = [](bool bad, const char* what) {
        if (bad) throw std::invalid_argument(what);
    };
    const auto refuse_thickness = [&](Millimetres t) {
        refuse(!(t.count() >= 0 && t.count() <= 300),
               "a slice's thickness lies between 0 and 300 mm");
    };
    for (const Millimetres t : thickness)
        refuse_thickness(t);
    if (usual_thickness) refuse_thickness(*usual_thickness);
    refuse(loaf_width && !(loaf_width->count() >= 10 && loaf_width->count() <= 1000),
           "a loaf's width lies between 10 and 1000 mm");
    const auto refuse_line = [&](Millimetres line) {
        refuse(!(line.count() >= 50 && line.count() <= 150),
               "the printed 100 mm line measures between 50 and 150 mm");
    };
    if (print_check) refuse_line(*print_check);
    for (const auto& [target, line] : print_checks)
        refuse_line(line);
    refuse(crumb_only && !(crumb_only->count() >= 0.005 && crumb_only->count() <= 1),
           "a pixel of crumb spans between 0.005 and 1 mm");
    refuse(since_oven && !(since_oven->count() >= 0), "a loaf is cut after it left the oven");
    refuse(base.kind == BaseHint::Kind::line && !base.line, "a base line needs its two points");
    if (base.line)
        refuse(std::hypot((*base.line)[1].x - (*base.line)[0].x,
                          (*base.line)[1].y - (*base.line)[0].y) < 10,
               "the base line's two points lie at least 10 pixels apart");
}

std::optional<Millimetres> MeasureOptions::print_check_of(TargetKind target) const {
    if (print_check) return print_check;
    const auto known = print_checks.find(target);
    return known == print_checks.end() ? std::nullopt : std::optional(known->second);
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
    reading.size_px = {photo.rgb.cols, photo.rgb.rows};
    const std::unique_ptr<CellSegmenter> segmenter = usual_segmenter();
    reading.analysis_version = version_with(*segmenter);

    if (options.crumb_only) {
        const FoundSlice slice = whole_frame(photo.rgb);
        const WorkingPlane plane = plane_of_crumb(*options.crumb_only);
        reading.scale = scale_of(plane, middle_of(slice));
        collect(measure_slice(photo.rgb, slice, plane, options, *segmenter), measurement);
        return measurement;
    }
    const std::optional<SeenTarget> target = find_target(grey);
    const std::vector<FoundSlice> slices = find_slices(photo.rgb, search_beside(target));
    if (slices.empty()) return measurement;

    const WorkingPlane plane = plane_of(target, photo, grey, slices.front(), options);
    reading.scale = scale_of(plane, middle_of(slices.front()));
    reading.warnings = plane.warnings;
    const std::vector<Warning> quality =
        target ? light_on(*target, photo.rgb) : why_no_target(grey);
    reading.warnings.insert(reading.warnings.end(), quality.begin(), quality.end());
    if (slices.size() > 1)
        reading.warnings.push_back({WarningCode::several_slices,
                                    std::to_string(slices.size()) +
                                        " slices are seen; all are "
                                        "measured, left to right, top to bottom",
                                    {},
                                    {}});
    if (options.since_oven && options.since_oven->count() < limits::warm_cut_hours)
        reading.warnings.push_back(cut_warm(*options.since_oven));
    for (const FoundSlice& slice : slices)
        collect(measure_slice(photo.rgb, slice, plane, options, *segmenter), measurement);
    if (Warning warning = not_yet(); !warning.concerns.empty())
        reading.warnings.push_back(std::move(warning));
    return measurement;
}

}  // namespace loafmark::analysis
