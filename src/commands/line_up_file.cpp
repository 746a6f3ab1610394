#include "commands/line_up_file.h"

#include <algorithm>
#include <cmath>
#include <ostream>
#include <variant>

#include "analysis/measure.h"
#include "commands/failure.h"
#include "commands/files.h"
#include "commands/messages.h"
#include "commands/text.h"
#include "line_up/line_up.h"
#include "reports/plain_words.h"

namespace loafmark::commands {
namespace {

bool is_png(const std::string& file) {
    return file.ends_with(".png");
}

std::vector<journal::SliceEntry> ends_last(const journal::BakeEntry& bake) {
    std::vector<journal::SliceEntry> slices;
    for (const journal::LoafEntry& loaf : bake.loaves)
        slices.insert(slices.end(), loaf.slices.begin(), loaf.slices.end());
    std::ranges::stable_partition(slices, [](const journal::SliceEntry& slice) {
        return slice.slice.place != journal::end_of_loaf;
    });
    return slices;
}

// "1 March 2026, 83 mm"
std::string remark_of(const journal::BakeEntry& bake, const journal::SliceEntry& slice) {
    std::string remark = reports::long_date(bake.bake.date);
    const auto height = slice.reading->values.find(Measure::loaf_height);
    if (height != slice.reading->values.end())
        remark += ", " + std::to_string(std::lround(height->second.value)) + " mm tall";
    return remark;
}

// The slice, or why there is none.
std::variant<line_up::Slice, std::string> slice_of(const LineUpBake& one,
                                                   const journal::Journal& journal) {
    std::string why = "no slice of it is filed";
    for (const journal::SliceEntry& slice : ends_last(one.bake)) {
        why = "its photo is not measured";
        if (!slice.reading) continue;
        const auto pictures = journal.pictures(slice.reading->id);
        const auto picture = pictures.find(journal::PictureKind::slice);
        if (picture == pictures.end()) continue;
        why = "its photo has no scale";
        if (!picture->second.mm_per_pixel) continue;
        return line_up::Slice{picture->second, one.name, remark_of(one.bake, slice)};
    }
    return why;
}

Picture pixels_of(const journal::ReadingPicture& picture) {
    if (picture.media_type != "image/jpeg")
        throw Failure("a kept picture is of type " + picture.media_type + ", not JPEG",
                      "write the line-up as .svg");
    return analysis::picture_of_jpeg(picture.bytes);
}

}  // namespace

std::string parse_line_up_file(const std::string& text) {
    if (!is_png(text) && !text.ends_with(".svg"))
        throw std::runtime_error("'" + text +
                                 "' is neither PNG nor SVG; write a name such as line-up.png");
    return text;
}

void write_line_up(const std::string& file, const std::string& title,
                   const std::vector<LineUpBake>& bakes, const journal::Journal& journal,
                   const Context& context) {
    line_up::LineUp line_up{title, {}};
    for (const LineUpBake& one : bakes) {
        const auto found = slice_of(one, journal);
        if (const auto* slice = std::get_if<line_up::Slice>(&found))
            line_up.slices.push_back(*slice);
        else
            context.err << stderr_line(
                "warning",
                "'" + one.bake.bake.title + "' (" + to_text(one.bake.bake.date) +
                    ") is not in the line-up: " + std::get<std::string>(found),
                colour_on_err(context));
    }
    if (line_up.slices.empty())
        throw Failure(
            "none of these bakes has a slice with a picture and a scale, so there is no "
            "line-up",
            "photograph slices on a printed target and file them: loafmark slice add");
    try {
        if (is_png(file))
            write_file(file, line_up::line_up_png(line_up, pixels_of));
        else
            write_file(file, line_up::line_up_svg(line_up));
    } catch (const std::invalid_argument& error) {
        throw Failure(error.what(), "name fewer bakes, or write it as .svg");
    }
}

}  // namespace loafmark::commands
