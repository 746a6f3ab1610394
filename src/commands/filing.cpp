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

journal::ReadingPicture jpeg_of(const Picture& picture,
                                const std::optional<MillimetresPerPixel>& scale) {
    return {.media_type = "image/jpeg",
            .bytes = analysis::encode_jpeg(picture),
            .mm_per_pixel = scale ? std::optional(scale->count()) : std::nullopt,
            .width_px = picture.width,
            .height_px = picture.height};
}

}  // namespace

analysis::MeasureOptions with_kept_pictures(analysis::MeasureOptions options) {
    options.overlay = true;
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
    const auto& slice_picture = measurement.slice_pictures.at(index);
    const Picture& overlay = measurement.overlays.at(index);
    reading.pictures[journal::PictureKind::slice] =
        jpeg_of(slice_picture.picture, slice_picture.mm_per_pixel);
    reading.pictures[journal::PictureKind::overlay] = jpeg_of(
        overlay, photo.scale.mm_per_pixel ? std::optional(analysis::overlay_scale) : std::nullopt);
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
