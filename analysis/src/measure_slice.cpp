#include "measure_slice.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <numbers>

#include <opencv2/imgproc.hpp>

#include "base_line.h"
#include "base_side.h"
#include "contours.h"
#include "crumb.h"
#include "crumb_values.h"
#include "crust.h"
#include "face_outline.h"
#include "frame.h"
#include "overlay.h"
#include "photo_quality.h"
#include "pictures.h"
#include "quantile.h"
#include "shape.h"
#include "slice_picture.h"
#include "without_units.h"

namespace loafmark::analysis {
namespace {

// All in working units (mm).
constexpr double unit_per_pixel = 0.1;  // cells are judged at 0.1 mm a pixel
static_assert(unit_per_pixel == overlay_scale.count());
constexpr double frame_margin = 9;
constexpr double base_tolerance = 0.6;
const double refined_alike = std::cos(15 * std::numbers::pi / 180);  // refined base and rough one
constexpr double least_limit = 0.5;                                  // the resolved limit
constexpr double limit_photo_pixels = 4;
// Below this many photo pixels a millimetre the limit rises above 0.67 mm: said.
constexpr double enough_pixels_per_unit = 6;
// What wants the whole outline.
const std::vector<Measure> shape_measures = {
    Measure::loaf_height,         Measure::loaf_width,
    Measure::base_width,          Measure::cross_section_area,
    Measure::height_to_width,     Measure::openness_profile_1,
    Measure::openness_profile_2,  Measure::openness_profile_3,
    Measure::openness_profile_4,  Measure::openness_profile_5,
    Measure::openness_profile_6,  Measure::openness_profile_7,
    Measure::openness_profile_8,  Measure::openness_profile_9,
    Measure::openness_profile_10, Measure::crust_separation_width,
    Measure::tunnel_width,        Measure::dense_base};

std::vector<Measure> measures_on_base() {
    std::vector<Measure> measures = shape_measures;
    measures.insert(measures.end(), {Measure::side_pinch, Measure::crust_thickness_top,
                                     Measure::crust_thickness_base, Measure::cell_direction});
    return measures;
}

class SliceMeasurer {
  public:
    SliceMeasurer(const cv::Mat& photo, const FoundSlice& found, const WorkingPlane& plane,
                  const MeasureOptions& options)
        : photo_(photo), found_(found), plane_(plane), options_(options) {}

    MeasuredSlice run(const CellSegmenter& segmenter) {
        find_face();
        measure_shape();
        find_crust();
        measure_crumb(segmenter);
        judge_photo();
        if (!plane_.has_scale()) take_units_away();
        make_pictures();
        return std::move(result_);
    }

    MeasuredSlice outline_and_crust() {
        find_face();
        measure_shape();
        find_crust();
        if (!plane_.has_scale()) take_units_away();
        return std::move(result_);
    }

    double width() {
        find_face();
        return shape_of(face_.outline, base_).width * unit_per_pixel;
    }

  private:
    // The frame stands on the base, which the refined outline tells better than the rough one, and
    // refining wants a frame.
    void find_face() {
        const Polyline rough = mapped(plane_.photo_from_plane.inv(), found_.outline);
        const cv::Point2d photo_down = photo_down_in_plane();
        const bool told = options_.base.line || options_.base.kind == BaseHint::Kind::bottom ||
                          found_.cut_by_frame;
        const cv::Point2d down = options_.base.line ? down_from_line(*options_.base.line, rough)
                                 : told             ? photo_down
                                                    : base_side(rough, photo_down).direction;
        place_frame(rough, down);
        find_outline();
        if (told) return;
        const BaseSide side = base_side(mapped(frame_.plane_from_frame, face_.outline), photo_down);
        const bool another = side.direction.dot(down) < refined_alike;
        if (another) {
            place_frame(rough, side.direction);
            find_outline();
        }
        for (const cv::Point2d& rival : side.rivals)
            other_sides_.push_back(turned_down(rival, another ? side.direction : down));
    }

    // Photo's down, as a direction in the plane at the slice.
    [[nodiscard]] cv::Point2d photo_down_in_plane() const {
        const cv::Matx33d plane_from_photo = plane_.photo_from_plane.inv();
        const cv::Point2d middle = middle_of(found_.outline);
        const cv::Point2d d = mapped(plane_from_photo, middle + cv::Point2d(0, 20)) -
                              mapped(plane_from_photo, middle);
        return d / cv::norm(d);
    }

    // The base runs between two given photo points; the slice lies on the side of its own middle.
    [[nodiscard]] cv::Point2d down_from_line(const std::array<PhotoPoint, 2>& line,
                                             const Polyline& outline) const {
        const cv::Matx33d plane_from_photo = plane_.photo_from_plane.inv();
        const cv::Point2d a = mapped(plane_from_photo, {line[0].x, line[0].y});
        const cv::Point2d b = mapped(plane_from_photo, {line[1].x, line[1].y});
        const cv::Point2d middle = middle_of(outline);
        const cv::Point2d along = (b - a) / cv::norm(b - a);
        const cv::Point2d square(-along.y, along.x);
        return (a - middle).dot(square) >= 0 ? square : -square;
    }

    void place_frame(const Polyline& rough, cv::Point2d down) {
        frame_ = frame_round(rough, down, frame_margin, unit_per_pixel, plane_.photo_from_plane);
        rgb_ = rectified(photo_, frame_);
        visible_ = shown_by(photo_.size(), frame_);
        rough_ = mapped(frame_.plane_from_frame.inv(), rough);
        photo_pixels_per_unit_ = 1 / mm_per_pixel_at(plane_.photo_from_plane, middle_of(rough));
        limit_ = std::max(plane_.has_scale() ? least_limit : 0.0,
                          limit_photo_pixels / photo_pixels_per_unit_);
    }

    static cv::Point2d middle_of(const Polyline& line) {
        cv::Point2d middle;
        for (const cv::Point2d& p : line)
            middle += p / static_cast<double>(line.size());
        return middle;
    }

    void find_outline() {
        face_ = face_outline(rgb_, rough_, found_, plane_, frame_, unit_per_pixel);
        if (options_.base.line) {
            const cv::Matx33d frame_from_photo = frame_.photo_from_frame.inv();
            const auto& line = *options_.base.line;
            base_.left = mapped(frame_from_photo, {line[0].x, line[0].y});
            base_.right = mapped(frame_from_photo, {line[1].x, line[1].y});
            if (base_.left.x > base_.right.x) std::swap(base_.left, base_.right);
        } else {
            base_ = base_line(face_.outline, base_tolerance / unit_per_pixel);
        }
        SliceReading& reading = result_.reading;
        reading.cut_by_frame = found_.cut_by_frame;
        reading.outline.clear();
        for (const cv::Point2d& p : mapped(frame_.photo_from_frame, face_.outline))
            reading.outline.push_back({p.x, p.y});
        const cv::Point2d left = mapped(frame_.photo_from_frame, base_.left);
        const cv::Point2d right = mapped(frame_.photo_from_frame, base_.right);
        reading.base_line = {PhotoPoint{left.x, left.y}, PhotoPoint{right.x, right.y}};
    }

    void measure_shape() {
        shape_ = shape_of(face_.outline, base_);
        if (found_.cut_by_frame) {
            result_.warnings.push_back({WarningCode::cut_by_frame,
                                        "the photo's edge cuts the slice, so its height, width and "
                                        "area are not known",
                                        shape_measures,
                                        {}});
            return;
        }
        result_.reading.values = shape_values_of({});
        if (!other_sides_.empty()) allow_for_other_sides();
    }

    // `down`: another side to take for the base, in the frame; none: the one taken.
    [[nodiscard]] Shape shape_on(const Polyline& outline, std::optional<cv::Point2d> down) const {
        const Polyline turned = down ? turned_down(outline, *down) : outline;
        const bool given = !down && options_.base.line;
        return in_units(
            shape_of(turned, given ? base_ : base_line(turned, base_tolerance / unit_per_pixel)),
            down ? scale_on_other_side(turned) : 1);
    }

    // A known width is that of the base taken; on another side the same width is another scale.
    [[nodiscard]] double scale_on_other_side(const Polyline& turned) const {
        if (plane_.source != ScaleSource::known_length) return 1;
        const auto [left, right] = std::minmax_element(
            turned.begin(), turned.end(),
            [](const cv::Point2d& a, const cv::Point2d& b) { return a.x < b.x; });
        return shape_.width / (right->x - left->x);
    }

    [[nodiscard]] MeasureValues shape_values_of(std::optional<cv::Point2d> down) const {
        const auto shapes_of = [&](const std::vector<Polyline>& outlines) {
            std::vector<Shape> shapes;
            for (const Polyline& outline : outlines)
                shapes.push_back(shape_on(outline, down));
            return shapes;
        };
        const Shape shape = shape_on(face_.outline, down);
        const Shape spread = joined(spread_of(shape, shapes_of(face_.by_weights)),
                                    spread_of(shape, shapes_of(face_.by_side)));
        MeasureValues values = shape_values(shape, spread, plane_.length_error, face_.edge_error);
        // An unknown tilt squeezes one direction only.
        Estimate& ratio = values.at(Measure::height_to_width);
        const double half =
            std::hypot(ratio.high - ratio.value, z95 * plane_.ratio_error * ratio.value);
        ratio.low = ratio.value - half, ratio.high = ratio.value + half;
        return values;
    }

    void allow_for_other_sides() {
        for (const cv::Point2d& side : other_sides_)
            widen(result_.reading.values, shape_values_of(side));
        result_.warnings.push_back({WarningCode::base_in_doubt,
                                    "more than one of the slice's sides may be the base",
                                    measures_on_base(),
                                    {}});
    }

    static Shape in_units(Shape shape, double scale = 1) {
        const double u = unit_per_pixel * scale;
        shape.height *= u, shape.width *= u, shape.base_width *= u, shape.pinch *= u;
        shape.perimeter *= u, shape.area *= u * u;
        return shape;
    }

    void judge_photo() {
        SliceQuality quality =
            quality_of({rgb_, face_.outline, limit_, unit_per_pixel, plane_.edge_spread});
        std::move(quality.warnings.begin(), quality.warnings.end(),
                  std::back_inserter(result_.warnings));
        if (!quality.crumb_hopeless) return;
        for (const auto& [measure, estimate] : cells_.values)
            if (measure != Measure::crumb_area) result_.reading.values.erase(measure);
        result_.reading.cells.clear();
        result_.reading.bubbles.clear();
    }

    void find_crust() {
        if (options_.crumb_only)
            crumb_.mask = filled(face_.outline, frame_.size);
        else
            crumb_ = find_crumb(rgb_, face_.outline, unit_per_pixel);
        crumb_.mask &= visible_;
        if (!found_.cut_by_frame && crumb_.crust_seen)
            result_.reading.values.merge(
                crust_thickness(crumb_, base_, unit_per_pixel, plane_.length_error,
                                plane_.front_view ? Stance::standing : Stance::lying));
    }

    void measure_crumb(const CellSegmenter& segmenter) {
        const cv::Mat face = filled(face_.outline, frame_.size) & visible_;
        Openings openings = segmenter.segment({rgb_, face, unit_per_pixel});
        const cv::Mat open = openings.probability > openings.level;
        result_.reading.values.merge(bread_colours({rgb_, face, crumb_.mask, open, plane_.paper}));
        // A dark crust is no opening.
        openings.probability.setTo(0, crumb_.mask == 0);
        crumb_.area = cv::countNonZero(crumb_.mask) * unit_per_pixel * unit_per_pixel;
        const BaseFrame base =
            base_frame(base_, found_.cut_by_frame ? nullptr : &shape_, unit_per_pixel);
        cells_ = crumb_values(
            {openings, crumb_, visible_, base, limit_, plane_.length_error,
             segmenter.known_error(plane_.has_scale() ? PixelSize::known : PixelSize::assumed),
             found_.cut_by_frame, other_widths()});
        result_.reading.values.insert(cells_.values.begin(), cells_.values.end());
        result_.reading.cells = cells_.cells;
        for (const SphereClass& c : cells_.spheres)  // a cubic centimetre is 1000 cubic units
            result_.reading.bubbles.push_back({c.low, c.high, 1000 * c.per_volume, c.was_negative});
        result_.reading.values[Measure::resolved_limit] = Estimate{limit_, limit_, limit_, {}, {}};
        if (!cells_.values.contains(Measure::coarseness))
            result_.warnings.push_back({WarningCode::no_cells,
                                        "no cells of the size that this photo resolves are seen",
                                        {Measure::coarseness},
                                        {}});
        if (plane_.has_scale() && photo_pixels_per_unit_ < enough_pixels_per_unit)
            result_.warnings.push_back({WarningCode::low_resolution,
                                        "the photo shows only " +
                                            std::to_string(std::lround(photo_pixels_per_unit_)) +
                                            " pixels a millimetre: small cells are lost",
                                        {Measure::resolved_limit},
                                        {}});
    }

    [[nodiscard]] std::vector<double> other_widths() const {
        if (plane_.has_scale()) return {};
        return {narrow_slice / assumed_width_units, wide_slice / assumed_width_units};
    }

    void take_units_away() {
        without_units(result_.reading, shape_.height * unit_per_pixel);
        result_.warnings.push_back(
            {WarningCode::assumed_width,
             "cells were worked on as if the slice were 120 mm wide; sizes are "
             "given as fractions of the loaf's height",
             {},
             {}});
    }

    void make_pictures() {
        const bool scaled = plane_.has_scale();
        if (options_.overlay)
            result_.overlay =
                draw_overlay({rgb_, frame_, face_.outline, crumb_.mask, cells_, base_, shape_,
                              limit_, scaled, !found_.cut_by_frame, options_.overlay_legend});
        if (options_.label_map) {
            SliceMaps maps;
            maps.cells = label_map_of(cells_.labels);
            maps.slice = label_map_of(filled(face_.outline, frame_.size));
            maps.crumb = label_map_of(crumb_.mask);
            maps.photo = picture_of(rgb_);
            if (scaled) maps.mm_per_pixel = MillimetresPerPixel(unit_per_pixel);
            for (int r = 0; r < 3; ++r)
                for (int c = 0; c < 3; ++c)
                    maps.photo_from_frame[static_cast<std::size_t>(r)]
                                         [static_cast<std::size_t>(c)] =
                        frame_.photo_from_frame(r, c) / frame_.photo_from_frame(2, 2);
            result_.maps = std::move(maps);
        }
        if (options_.slice_picture)
            result_.picture =
                slice_picture({rgb_, face_.outline, std::max(base_.left.y, base_.right.y),
                               unit_per_pixel, scaled, !found_.cut_by_frame, plane_.paper});
    }

    const cv::Mat& photo_;
    const FoundSlice& found_;
    const WorkingPlane& plane_;
    const MeasureOptions& options_;

    MeasuredSlice result_;
    std::vector<cv::Point2d> other_sides_;  // in the frame, where the base may lie as well
    Frame frame_;
    cv::Mat rgb_, visible_;
    Polyline rough_;
    FaceOutline face_;
    double photo_pixels_per_unit_ = 0, limit_ = 0;
    BaseLine base_;
    Shape shape_;
    Crumb crumb_;
    CrumbResult cells_;
};

}  // namespace

double refined_width(const cv::Mat& photo_rgb, const FoundSlice& found, const WorkingPlane& plane,
                     const MeasureOptions& options) {
    return SliceMeasurer(photo_rgb, found, plane, options).width();
}

MeasuredSlice measure_outline(const cv::Mat& photo_rgb, const FoundSlice& found,
                              const WorkingPlane& plane, const MeasureOptions& options) {
    return SliceMeasurer(photo_rgb, found, plane, options).outline_and_crust();
}

MeasuredSlice measure_slice(const cv::Mat& photo_rgb, const FoundSlice& found,
                            const WorkingPlane& plane, const MeasureOptions& options,
                            const CellSegmenter& segmenter) {
    return SliceMeasurer(photo_rgb, found, plane, options).run(segmenter);
}

}  // namespace loafmark::analysis
