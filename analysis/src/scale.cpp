#include "scale.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <sstream>

#include "geometry2d.h"
#include "paper_white.h"
#include "photo_limits.h"
#include "quantile.h"

namespace loafmark::analysis {
namespace {

// A ruled thickness is good to half a millimetre (95 %).
constexpr double ruler_sigma_mm = 0.5 / z95;
// A baker's usual thickness is good to two (95 %): common practice, no source.
constexpr double habit_sigma_mm = 2.0 / z95;
// A slice lies some tenths above the paper, on a cloth about a millimetre.
constexpr double lift_mm = 0.3;
constexpr double lift_sigma_mm = 0.3;
// Printers keep lengths to about 0.3 % (95 %) when set to 100 %: common practice, no source. A
// checked print is as good as the ruler it was checked with: 0.2 mm in 100.
constexpr double print_sigma = 0.003 / z95;
constexpr double checked_print_sigma = 0.002 / z95;
// EXIF rounds the focal length to a millimetre of about 26.
constexpr double exif_focal_sigma = 0.02;
constexpr double assumed_focal_sigma = 0.12;
// Without a target nothing tells the tilt; people hold a phone square to 15 degrees (common
// practice, no source). That shortens what runs along the tilt to 1 / cos 15 degrees, 3.5 %, and
// brings one end of the slice nearer: at 350 mm, half a height of 90 mm by sin 15 degrees is 3.3 %.
// A test turns a slice all round under such a camera.
constexpr double unknown_tilt_share = 0.068;

// Half a loaf that stands is deeper than this; common practice, no source.
constexpr double least_depth_mm = 20;

struct FaceHeight {
    double mm = 0, low = 0, high = 0, sigma = 0;
    bool assumed = false;
};

FaceHeight face_height(TargetKind kind, const MeasureOptions& options) {
    const std::vector<Millimetres>& thickness = options.thickness;
    if (thickness.empty() && kind == TargetKind::strip) return {0, 0, 0, 0, false};
    if (thickness.empty() && options.usual_thickness) {
        const double mm = options.usual_thickness->count() + lift_mm;
        const double sigma = std::hypot(habit_sigma_mm, lift_sigma_mm);
        return {mm, std::max(0.0, mm - z95 * sigma), mm + z95 * sigma, sigma, true};
    }
    if (thickness.empty()) return {15, 8, 25, (25.0 - 8.0) / 2 / z95, true};
    double sum = 0, least = thickness.front().count(), most = least;
    for (const Millimetres t : thickness) {
        sum += t.count();
        least = std::min(least, t.count());
        most = std::max(most, t.count());
    }
    const auto n = static_cast<double>(thickness.size());
    // A wedge: the plane's height varies evenly between the ruled ends.
    const double wedge = (most - least) / std::sqrt(12.0);
    const double sigma = std::hypot(ruler_sigma_mm / std::sqrt(n), wedge, lift_sigma_mm);
    const double mm = sum / n + lift_mm;
    return {mm, mm - z95 * sigma, mm + z95 * sigma, sigma, false};
}

std::string rounded(double value, int decimals) {
    std::ostringstream text;
    text.setf(std::ios::fixed);
    text.precision(decimals);
    text << value;
    return text.str();
}

std::string taken_for_it(const MeasureOptions& options) {
    if (!options.usual_thickness) return "15 mm is assumed";
    const double mm = options.usual_thickness->count();
    return rounded(mm, mm == std::floor(mm) ? 0 : 1) + " mm is taken, as you usually cut";
}

class TargetJudge {
  public:
    TargetJudge(const SeenTarget& target, const PaperPose& pose, double mm_per_pixel)
        : target_(target), pose_(pose), mm_per_pixel_(mm_per_pixel) {}

    [[nodiscard]] std::vector<Warning> warnings() {
        judge_markers();
        judge_layout();
        judge_view();
        return std::move(warnings_);
    }

  private:
    void warn(WarningCode code, std::string message) {
        warnings_.push_back({code, std::move(message), {}, {}});
    }

    void judge_markers() {
        const std::size_t printed = markers_of(target_.kind).size();
        if (target_.markers.size() < printed)
            warn(WarningCode::target_partly_hidden,
                 "only " + std::to_string(target_.markers.size()) + " of the target's " +
                     std::to_string(printed) + " markers are seen" +
                     (target_.markers.size() == 1 ? ", and one alone tells little of the tilt"
                                                  : ""));
        const double side = marker_side_px(target_);
        if (side < limits::fewest_marker_pixels)
            warn(WarningCode::target_small, "the target's markers are only " + rounded(side, 0) +
                                                " pixels wide, so their corners are unsure");
    }

    void judge_layout() {
        const double misfit_mm = pose_.residual_px * mm_per_pixel_;
        if (target_.others_seen)
            warn(WarningCode::target_conflict,
                 "markers that do not belong to one sheet lie in the photo; those that fit "
                 "together are used");
        else if (misfit_mm > limits::most_misfit_mm)
            warn(WarningCode::target_conflict,
                 "the markers miss their printed places by " + rounded(misfit_mm, 1) +
                     " mm: the paper is bent, or was not printed to scale");
    }

    void judge_view() {
        if (pose_.tilt_deg <= limits::most_tilt_deg) return;
        const std::string seen =
            "the camera looked " + rounded(pose_.tilt_deg, 0) + " degrees aside";
        warn(WarningCode::tilted, pose_.tilt_deg > limits::hopeless_tilt_deg
                                      ? seen + ": too far for any length"
                                      : seen + ", and saw the slice's side too");
    }

    const SeenTarget& target_;
    const PaperPose& pose_;
    double mm_per_pixel_;
    std::vector<Warning> warnings_;
};

}  // namespace

WorkingPlane plane_from_target(const SeenTarget& target, const Photo& photo,
                               const MeasureOptions& options, cv::Point2d at) {
    WorkingPlane plane;
    plane.source = target.kind == TargetKind::strip ? ScaleSource::strip : ScaleSource::mat;
    plane.target = target.kind;
    const std::optional<Millimetres> line = options.print_check_of(target.kind);
    const double print_scale = line ? line->count() / 100 : 1;
    const PaperPose pose = paper_pose(target, lens_of(photo.focal_length_35mm, photo.rgb.size()),
                                      photo.rgb.size(), print_scale);
    const FaceHeight height = face_height(target.kind, options);
    plane.photo_from_plane = photo_from_plane(pose, height.mm);
    if (height.mm != 0) plane.height_mm = Estimate{height.mm, height.low, height.high, {}, {}};

    plane.paper = paper_white(photo.rgb, target);
    const cv::Point2d at_mm = mapped(plane.photo_from_plane.inv(), at);
    const double corners = scale_error_from_corners(target, pose, height.mm, at_mm, print_scale);
    const double distance = std::max(camera_height_mm(pose) - height.mm, 1.0);
    if (height.mm > 0)
        plane.viewpoint = Viewpoint{camera_foot_mm(pose), distance, height.mm - lift_mm};
    else
        plane.front_view = Viewpoint{camera_foot_mm(pose), distance, least_depth_mm};
    const double focal_sigma = pose.lens.from_exif ? exif_focal_sigma : assumed_focal_sigma;
    // The face's scale is the paper's times (distance - height) / distance, and the distance found
    // is proportional to the focal length.
    const double from_height = height.sigma / distance;
    const double from_focal = focal_sigma * height.mm / distance;
    const double from_print = line ? checked_print_sigma : print_sigma;
    const double bent = target.markers.size() == 1 ? 0.01 : 0;  // one marker cannot show it
    plane.length_error = std::sqrt(corners * corners + from_height * from_height +
                                   from_focal * from_focal + from_print * from_print + bent * bent);

    plane.warnings =
        TargetJudge(target, pose, mm_per_pixel_at(plane.photo_from_plane, at_mm)).warnings();
    if (!line)
        plane.warnings.push_back({WarningCode::print_not_checked,
                                  "nobody ruled the printed target's 100 mm line; lengths allow "
                                  "0.3 % for it, and a page that the printer fitted to its paper "
                                  "is off by more",
                                  {},
                                  {}});
    if (pose.tilt_deg > limits::hopeless_tilt_deg) plane.source = ScaleSource::none;
    if (height.assumed)
        plane.warnings.push_back({WarningCode::thickness_assumed,
                                  "the slice's thickness is not given; " + taken_for_it(options) +
                                      ", and lengths are uncertain by " +
                                      rounded(100 * z95 * from_height, 1) + " % for it",
                                  {},
                                  {}});
    if (!pose.lens.from_exif && height.mm > 0)
        plane.warnings.push_back(
            {WarningCode::focal_length_assumed,
             "the photo does not tell its focal length; a phone's usual one is "
             "assumed, and intervals are wider for it",
             {},
             {}});
    return plane;
}

WorkingPlane plane_without_target(const MeasureOptions& options, double width_px) {
    WorkingPlane plane;
    const double units = options.loaf_width ? options.loaf_width->count() : assumed_width_units;
    const double pixels_per_unit = width_px / units;
    plane.photo_from_plane = {pixels_per_unit, 0, 0, 0, pixels_per_unit, 0, 0, 0, 1};
    plane.ratio_error = unknown_tilt_share / z95;
    if (options.loaf_width) {
        plane.source = ScaleSource::known_length;
        plane.length_error = std::hypot(unknown_tilt_share, 0.5 / units) / z95;
        plane.warnings.push_back(
            {WarningCode::known_length_only,
             "the scale rests on one known length; the photo's tilt is unknown "
             "and the intervals allow 15 degrees of it; colours are uncalibrated without a "
             "target's paper",
             {},
             {}});
    } else {
        plane.warnings.push_back({WarningCode::no_target,
                                  "no target is seen, so nothing can be given in millimetres, "
                                  "and colours are uncalibrated",
                                  {},
                                  {}});
    }
    return plane;
}

WorkingPlane stretched(WorkingPlane plane, double measured, double known) {
    const double ratio = measured / known;
    plane.photo_from_plane =
        plane.photo_from_plane * cv::Matx33d(ratio, 0, 0, 0, ratio, 0, 0, 0, 1);
    return plane;
}

}  // namespace loafmark::analysis
