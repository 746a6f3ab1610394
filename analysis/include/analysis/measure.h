// The one entry point of the analysis: photo in, reading out. Start here.
#pragma once

#include <array>
#include <cstdint>
#include <filesystem>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "analysis/error.h"
#include "analysis/picture.h"
#include "analysis/reading.h"
#include "analysis/target_layout.h"
#include "analysis/units.h"

namespace loafmark::analysis {

// Which side of the slice lay on the oven floor or the tin's bottom.
struct BaseHint {
    enum class Kind { automatic, bottom, line } kind = Kind::automatic;
    // For `line`: two points on the base, in photo pixels after EXIF rotation.
    std::optional<std::array<PhotoPoint, 2>> line;
};

// What the baker knows and the photo does not tell. check() refuses what cannot be, never clips.
struct MeasureOptions {
    // The slice's thickness, ruled at one place or more; empty: on a mat 15 mm is assumed (95 %
    // range 8 to 25 mm) and said; with a strip, the strip is taken to stand in the plane of the
    // cut.
    std::vector<Millimetres> thickness;
    // How thick the baker cuts; taken for a slice on a mat whose own thickness is not given (95 %
    // range 2 mm to either side) and said.
    std::optional<Millimetres> usual_thickness;
    // A known length of the slice along its base, used when no target is seen.
    std::optional<Millimetres> loaf_width;
    // What the printed 100 mm line of the photo's target measures, when the printer scaled the
    // page.
    std::optional<Millimetres> print_check;
    // The same of every target whose line was ruled; `print_check` goes before.
    std::map<TargetKind, Millimetres> print_checks;
    // From the oven to the knife: a loaf cut warm is told.
    std::optional<Hours> since_oven;
    BaseHint base;
    // The photo shows nothing but crumb, square on, at this scale: no target, outline or crust is
    // looked for, and what wants a whole slice is not measured.
    std::optional<MillimetresPerPixel> crumb_only;
    // Pictures to make besides the reading; each costs time.
    bool overlay = false;
    bool overlay_legend = true;  // a band beside the slice that says what is drawn
    bool label_map = false;
    bool slice_picture = false;

    // Throws std::invalid_argument that names the field and its allowed range.
    void check() const;
    // What the line of that target measures; nothing where nobody ruled it.
    [[nodiscard]] std::optional<Millimetres> print_check_of(TargetKind target) const;
};

// Maps of one slice in one rectified frame, base down.
struct SliceMaps {
    LabelMap cells;                                   // 0 solid, k = cell k
    LabelMap slice;                                   // 1 inside the outline
    LabelMap crumb;                                   // 1 in the crumb
    Picture photo;                                    // the photo seen in that frame
    std::optional<MillimetresPerPixel> mm_per_pixel;  // none without a scale
    Homography photo_from_frame{};
};

// A slice, upright, at a stated scale, for line-ups and reports. Its lower edge is the base line.
struct SlicePicture {
    Picture picture;
    std::optional<MillimetresPerPixel> mm_per_pixel;
    std::vector<PicturePoint> outline{};  // closed; along it the slice can be cut out
    // Whether the target's paper was made white, equally bright in every photo; else the colours
    // are the camera's own.
    bool balanced = false;
};

// What a pixel of an overlay spans, where the reading has a scale.
inline constexpr MillimetresPerPixel overlay_scale{0.1};

struct Measurement {
    PhotoReading reading;
    // One a slice, in the reading's order; empty unless asked for.
    std::vector<Picture> overlays;
    std::vector<SliceMaps> maps;
    std::vector<SlicePicture> slice_pictures;
};

// Names the method and its version, "classical 1"; part of every reading.
[[nodiscard]] std::string analysis_version();

// Measures every slice in the photo. Reads JPEG, PNG and HEIC. Throws Error when the file cannot be
// read as a photo, std::invalid_argument when `options` cannot be. A photo without a slice gives a
// reading without slices.
[[nodiscard]] Measurement measure_photo(const std::filesystem::path& photo,
                                        const MeasureOptions& options = {});

// Encodes a picture. `quality` 1 to 100. Throws std::invalid_argument for a picture without pixels,
// and where the bytes are not as many as its size asks for.
[[nodiscard]] std::vector<std::uint8_t> encode_jpeg(const Picture& picture, int quality = 88);
[[nodiscard]] std::vector<std::uint8_t> encode_png(const Picture& picture);
// A JPEG as a picture, its sides divided by `shrink` (1, 2, 4 or 8), rounded up. Throws Error where
// the bytes are no JPEG or a damaged one.
[[nodiscard]] Picture picture_of_jpeg(std::span<const std::uint8_t> file, int shrink = 1);
// A 16-bit grey PNG.
[[nodiscard]] std::vector<std::uint8_t> encode_png(const LabelMap& map);

}  // namespace loafmark::analysis
