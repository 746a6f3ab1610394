// What one version of the analysis measured on a photo: plain values, no image library in sight.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "analysis/geometry.h"
#include "analysis/measures.h"
#include "analysis/target_layout.h"
#include "analysis/units.h"

namespace loafmark {

// Why a value is missing or to be read with care. A closed set: each has a test.
enum class WarningCode {
    no_target,          // nothing in the photo gives a scale
    known_length_only,  // scale from one length; the photo's tilt is unknown
    target_partly_hidden,
    target_conflict,    // the markers disagree with the printed layout: bent, rescaled, two targets
    thickness_assumed,  // a mat and no thickness given
    focal_length_assumed,
    cut_by_frame,   // the photo's edge cuts the slice
    base_in_doubt,  // which of its sides a loaf baked on is a guess
    several_slices,
    assumed_width,   // no scale: cells were worked on as if the slice were 120 mm wide
    low_resolution,  // the photo resolves fewer pixels a millimetre than the measures want
    no_cells,
    print_not_checked,  // nobody ruled the target's 100 mm line
    target_mirrored,    // the target is seen in a mirror or from behind: it gives no scale
    target_small,       // too few pixels a marker
    tilted,             // the camera looked at the cut face from far aside
    glare,              // light mirrored by the target's paper
    uneven_light,       // one side of the target far brighter than the other
    blurred,            // edges are wider than the cells that are counted
    overexposed,        // part of the slice is white without detail
    underexposed,       // the slice is near black
    cut_warm,           // cut within the hour: the knife smears cells
    not_yet,            // the measure is defined but not built
};

// The code as JSON writes it, "no_target".
[[nodiscard]] constexpr std::string_view code_name(WarningCode code) {
    switch (code) {
        case WarningCode::no_target:
            return "no_target";
        case WarningCode::known_length_only:
            return "known_length_only";
        case WarningCode::target_partly_hidden:
            return "target_partly_hidden";
        case WarningCode::target_conflict:
            return "target_conflict";
        case WarningCode::thickness_assumed:
            return "thickness_assumed";
        case WarningCode::focal_length_assumed:
            return "focal_length_assumed";
        case WarningCode::cut_by_frame:
            return "cut_by_frame";
        case WarningCode::base_in_doubt:
            return "base_in_doubt";
        case WarningCode::several_slices:
            return "several_slices";
        case WarningCode::assumed_width:
            return "assumed_width";
        case WarningCode::low_resolution:
            return "low_resolution";
        case WarningCode::no_cells:
            return "no_cells";
        case WarningCode::print_not_checked:
            return "print_not_checked";
        case WarningCode::target_mirrored:
            return "target_mirrored";
        case WarningCode::target_small:
            return "target_small";
        case WarningCode::tilted:
            return "tilted";
        case WarningCode::glare:
            return "glare";
        case WarningCode::uneven_light:
            return "uneven_light";
        case WarningCode::blurred:
            return "blurred";
        case WarningCode::overexposed:
            return "overexposed";
        case WarningCode::underexposed:
            return "underexposed";
        case WarningCode::cut_warm:
            return "cut_warm";
        case WarningCode::not_yet:
            return "not_yet";
    }
    return "";
}

struct Warning {
    WarningCode code;
    std::string message;            // what was seen, in plain words
    std::vector<Measure> concerns;  // the measures that it leaves out or widens
    std::optional<int> slice;       // 1-based, left to right, top to bottom; none: the whole photo
    bool operator==(const Warning&) const = default;
};

enum class ScaleSource { mat, strip, known_length, none };

[[nodiscard]] constexpr std::string_view source_name(ScaleSource source) {
    switch (source) {
        case ScaleSource::mat:
            return "mat";
        case ScaleSource::strip:
            return "strip";
        case ScaleSource::known_length:
            return "known length";
        case ScaleSource::none:
            break;
    }
    return "none";
}

struct Scale {
    ScaleSource source = ScaleSource::none;
    std::optional<TargetKind> target;  // where the source is a mat or a strip
    // At the middle of the slices, in the plane of the cut face. Absent without a scale.
    std::optional<Estimate> mm_per_pixel;
    // Of the measured plane above the target's paper, in mm. Absent without a target.
    std::optional<Estimate> plane_height_mm;
    // Plane coordinates in mm to photo pixels. Absent without a scale.
    std::optional<Homography> photo_from_plane;
    bool operator==(const Scale&) const = default;
};

// One opening in the cut face. Lengths in mm; without a scale, in fractions of the loaf's height
// (areas in its square).
struct Cell {
    int id = 0;                      // its number in the label map, from 1
    double equivalent_diameter = 0;  // sqrt(4 A / pi), ISO 9276-6
    double area = 0;
    PlanePoint centre;     // from the slice's own frame, x right, y down
    bool counted = false;  // at or above the resolved limit, centroid in the crumb
    bool operator==(const Cell&) const = default;
};

// Bubbles of one class of diameters, mm, as unfolded from the section (Saltykov).
struct BubbleClass {
    double low = 0, high = 0;
    double per_cm3 = 0;
    bool set_to_zero = false;  // came out negative
    bool operator==(const BubbleClass&) const = default;
};

// The reading of one slice.
struct SliceReading {
    MeasureValues values;
    std::vector<Cell> cells;
    std::vector<BubbleClass> bubbles;       // from the smallest class; empty without a scale
    std::vector<PhotoPoint> outline;        // closed polygon
    std::array<PhotoPoint, 2> base_line{};  // its left and right end
    bool cut_by_frame = false;
    bool operator==(const SliceReading&) const = default;
};

struct PhotoReading {
    std::string photo;                          // file name, without its folder
    std::optional<std::string> taken;           // local time of exposure, 2026-03-01T18:20:00
    std::optional<std::array<int, 2>> size_px;  // width and height after EXIF rotation
    Scale scale;
    std::vector<SliceReading> slices;  // left to right, top to bottom; empty: no slice was seen
    std::vector<Warning> warnings;
    std::string analysis_version;
    bool operator==(const PhotoReading&) const = default;
};

}  // namespace loafmark
