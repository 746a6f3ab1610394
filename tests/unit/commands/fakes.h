// A world outside and an analysis made up for tests.
#pragma once

#include <map>
#include <sstream>
#include <string>

#include "../journal/example_journal.h"
#include "commands/context.h"
#include "commands/photos.h"

namespace loafmark::commands {

// Holds what a command printed; lends a Context that writes to it.
struct FakeWorld {
    std::ostringstream out;
    std::ostringstream err;
    std::istringstream in;
    bool at_a_terminal = false;
    std::map<std::string, std::string> variables;

    // As somebody at a terminal would type it, line by line; then the input ends.
    void type(const std::string& lines) {
        in.clear();
        in.str(lines);
        at_a_terminal = true;
    }

    [[nodiscard]] Context context() {
        return {.out = out,
                .err = err,
                .environment = [this](const std::string& name) -> std::optional<std::string> {
                    const auto found = variables.find(name);
                    return found == variables.end() ? std::nullopt : std::optional(found->second);
                },
                .today = {2026, 3, 5},
                .now_local = [] { return std::string("2026-03-05 18:20"); },
                .program = {},
                .err_is_terminal = at_a_terminal,
                .in = &in,
                .in_is_terminal = at_a_terminal};
    }
};

inline Picture grey_picture() {
    return {2, 2, std::vector<std::uint8_t>(12, 128)};
}

// A photo of so many slices on a mat, of this openness; pictures and maps as the options ask.
inline analysis::Measurement made_up_measurement(const std::filesystem::path& photo,
                                                 const analysis::MeasureOptions& options,
                                                 std::size_t slices = 1, double openness = 0.4) {
    analysis::Measurement measurement;
    PhotoReading& reading = measurement.reading;
    reading.photo = photo.filename().string();
    reading.analysis_version = "made up";
    reading.size_px = {600, 900};
    reading.scale.source = ScaleSource::mat;
    reading.scale.target = TargetKind::a4_mat;
    reading.scale.mm_per_pixel = Estimate{0.1, 0.099, 0.101, {}, {}};
    for (std::size_t i = 0; i < slices; ++i) {
        SliceReading slice;
        slice.values[Measure::resolved_limit] = {0.5, 0.5, 0.5, {}, {}};
        slice.values[Measure::loaf_height] = {98.25, 97, 99.5, {}, {}};
        slice.values[Measure::openness] = {openness, openness - 0.02, openness + 0.02, {}, {}};
        const double top = 100 + 600.0 * static_cast<double>(i);
        slice.outline = {{10, top}, {190, top}, {190, top + 100}, {10, top + 100}};
        slice.cells = {{1, 2.5, 4.9, {1, 2}, true}, {2, 0.3, 0.07, {3, 4}, false}};
        reading.slices.push_back(slice);
        if (options.overlay) measurement.overlays.push_back(grey_picture());
        if (options.slice_picture)
            measurement.slice_pictures.push_back({grey_picture(), MillimetresPerPixel(0.2)});
    }
    return measurement;
}

}  // namespace loafmark::commands
