#include "commands/filing.h"

#include <algorithm>

#include "commands/remedies.h"
#include "documents/photo_document.h"

namespace loafmark::commands {
namespace {

std::vector<std::string> warning_codes(const PhotoReading& reading, std::size_t index) {
    std::vector<std::string> codes;
    for (const Warning& warning : reading.warnings) {
        if (warning.slice && *warning.slice != static_cast<int>(index) + 1) continue;
        const std::string code(code_name(warning.code));
        if (std::ranges::find(codes, code) == codes.end()) codes.push_back(code);
    }
    return codes;
}

// What a page shows needs no more than 0.2 mm a pixel of the overlay, and a page of many no more
// than 0.5 mm.
constexpr int overlay_by = 2;
constexpr int small_overlay_by = 5;
constexpr int small_slice_by = 2;
constexpr int small_quality = 70;

journal::ReadingPicture jpeg_of(const Picture& picture, const std::optional<double>& mm_per_pixel) {
    return {.media_type = "image/jpeg",
            .bytes = analysis::encode_jpeg(picture),
            .mm_per_pixel = mm_per_pixel,
            .width_px = picture.width,
            .height_px = picture.height};
}

journal::ReadingPicture kept_slice(const analysis::SlicePicture& slice) {
    journal::ReadingPicture kept =
        jpeg_of(slice.picture,
                slice.mm_per_pixel ? std::optional(slice.mm_per_pixel->count()) : std::nullopt);
    kept.outline = slice.outline;
    kept.balanced = slice.balanced;
    kept.small_bytes = analysis::encode_jpeg(shrunk(slice.picture, small_slice_by), small_quality);
    return kept;
}

journal::ReadingPicture kept_overlay(const Picture& overlay, bool has_scale) {
    const Picture fewer = shrunk(overlay, overlay_by);
    const double by = static_cast<double>(overlay.width) / fewer.width;
    journal::ReadingPicture kept = jpeg_of(
        fewer, has_scale ? std::optional(by * analysis::overlay_scale.count()) : std::nullopt);
    kept.small_bytes = analysis::encode_jpeg(shrunk(overlay, small_overlay_by), small_quality);
    return kept;
}

}  // namespace

Picture shrunk(const Picture& picture, int by) {
    Picture fewer{picture.width / by, picture.height / by, {}};
    if (fewer.width == 0 || fewer.height == 0) return picture;
    fewer.rgb.reserve(static_cast<std::size_t>(fewer.width) * fewer.height * 3);
    const int count = by * by;
    for (int y = 0; y < fewer.height; ++y)
        for (int x = 0; x < fewer.width; ++x)
            for (int k = 0; k < 3; ++k) {
                int sum = 0;
                for (int dy = 0; dy < by; ++dy)
                    for (int dx = 0; dx < by; ++dx)
                        sum += picture.rgb[(static_cast<std::size_t>(y * by + dy) * picture.width +
                                            static_cast<std::size_t>(x * by + dx)) *
                                               3 +
                                           static_cast<std::size_t>(k)];
                fewer.rgb.push_back(static_cast<std::uint8_t>((sum + count / 2) / count));
            }
    return fewer;
}

analysis::MeasureOptions with_kept_pictures(analysis::MeasureOptions options) {
    options.overlay = true;
    options.overlay_legend = false;
    options.slice_picture = true;
    return options;
}

journal::NewReading reading_of(const analysis::Measurement& measurement, std::size_t index) {
    const PhotoReading& photo = measurement.reading;
    const SliceReading& slice = photo.slices.at(index);
    journal::NewReading reading;
    reading.analysis_version = photo.analysis_version;
    reading.scale_source = std::string(source_name(photo.scale.source));
    reading.taken = photo.taken;
    reading.values = slice.values;
    for (const Cell& cell : slice.cells)
        if (cell.counted) reading.cell_diameters.push_back(cell.equivalent_diameter);
    reading.document = documents::slice_document(
        photo, index, [](WarningCode code) { return std::string(remedy_for(code)); });
    reading.warnings = warning_codes(photo, index);
    reading.pictures[journal::PictureKind::slice] =
        kept_slice(measurement.slice_pictures.at(index));
    reading.pictures[journal::PictureKind::overlay] =
        kept_overlay(measurement.overlays.at(index), photo.scale.mm_per_pixel.has_value());
    return reading;
}

namespace {

std::optional<journal::CrumbSample> crumb_of(const SliceFacts& facts) {
    if (!facts.crumb_mass) return std::nullopt;
    if (!facts.plugs) return journal::CrumbSample{*facts.crumb_mass, std::nullopt, 0};
    return journal::CrumbSample{*facts.crumb_mass, facts.plugs->diameter, facts.plugs->count};
}

}  // namespace

journal::NewSlice slice_of(const analysis::Measurement& measurement, std::size_t index,
                           journal::LoafId loaf, const SliceFacts& facts) {
    return {.loaf = loaf,
            .index_in_photo = static_cast<int>(index) + 1,
            .place = facts.place,
            .cut = facts.cut,
            .thickness = facts.thickness,
            .mass = facts.mass,
            .since_oven = facts.since_oven,
            .crumb = crumb_of(facts),
            .reading = reading_of(measurement, index)};
}

}  // namespace loafmark::commands
