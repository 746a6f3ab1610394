#include "compare_yardsticks.h"

#include <algorithm>
#include <cmath>

#include "crumb_figures.h"
#include "plane.h"
#include "true_crumb.h"

namespace loafmark::accuracy {
namespace {

Outcome score_of(const Figure& figure, const CrumbComparison& crumb) {
    if (figure.kind == FigureKind::score) return {true, crumb.cell_f1, std::nullopt, 0};
    if (figure.title != specks_title) return {true, crumb.size_distance, std::nullopt, 0};
    if (!crumb.specks_covered) return {};  // there are none
    return {true, *crumb.specks_covered, std::nullopt, 0};
}

// The true outline filled, in the analysis' frame; of nothing but crumb what the photo shows.
std::vector<std::uint8_t> true_face(const TrueSlice& truth, const analysis::SliceMaps& maps) {
    std::vector<std::uint8_t> face(maps.cells.labels.size(), 0);
    if (truth.outline.empty()) {
        std::copy(maps.slice.labels.begin(), maps.slice.labels.end(), face.begin());
        return face;
    }
    const Homography frame_from_slice =
        product(inverse(maps.photo_from_frame), truth.photo_from_slice);
    std::vector<PlanePoint> outline;
    for (const PlanePoint& p : truth.outline)
        outline.push_back(mapped(frame_from_slice, p.x, p.y));
    for (int y = 0; y < maps.cells.height; ++y) {
        const std::vector<double> ends = crossings(outline, y);
        for (std::size_t k = 0; k + 1 < ends.size(); k += 2)
            for (int x = std::max(0, static_cast<int>(std::ceil(ends[k])));
                 x <= std::min(maps.cells.width - 1, static_cast<int>(std::floor(ends[k + 1])));
                 ++x)
                face[static_cast<std::size_t>(y) * static_cast<std::size_t>(maps.cells.width) +
                     static_cast<std::size_t>(x)] = 1;
    }
    return face;
}

// A reading of these cells by plain counting.
SliceReading reading_of(const std::vector<std::uint16_t>& cells, const SliceReading& found,
                        const analysis::SliceMaps& maps) {
    SliceReading reading;
    reading.base_line = found.base_line;
    const double mm = maps.mm_per_pixel->count();
    const Estimate limit = found.values.at(Measure::resolved_limit);
    CrumbPlace place{cells, maps.crumb, mm, limit.value, {}, {}, 0};
    const Homography frame_from_photo = inverse(maps.photo_from_frame);
    place.base_left = mapped(frame_from_photo, found.base_line[0].x, found.base_line[0].y);
    place.base_right = mapped(frame_from_photo, found.base_line[1].x, found.base_line[1].y);
    for (const Measure measure : {Measure::loaf_height, Measure::resolved_limit})
        if (const auto value = found.values.find(measure); value != found.values.end())
            reading.values.insert(*value);
    if (const auto height = found.values.find(Measure::loaf_height); height != found.values.end())
        place.height_mm = height->second.value;
    for (const auto& [measure, value] : crumb_truth(place).measures)
        reading.values[measure] = {value, value, value, {}, {}};
    const std::vector<Blob> blobs = blobs_of(cells, maps.cells.width);
    for (std::size_t i = 0; i < blobs.size(); ++i) {
        Cell cell;
        cell.id = static_cast<int>(i + 1);
        cell.equivalent_diameter = diameter_of(blobs[i], mm);
        cell.counted = cell.equivalent_diameter >= limit.value && centred_in(blobs[i], maps.crumb);
        reading.cells.push_back(cell);
    }
    return reading;
}

}  // namespace

void judge_crumb(const TrueSlice& true_slice, const SliceReading& found,
                 const analysis::SliceMaps& maps, std::array<Outcome, figure_count>& outcomes) {
    const auto judged = compare_crumb(true_slice, found, maps);
    if (!judged) return;
    const CrumbComparison& crumb = *judged;
    for (std::size_t i = 0; i < figure_count; ++i) {
        const Figure& figure = figures[i];
        Outcome& outcome = outcomes[i];
        if (!figure.of_crumb || !outcome.asked) continue;
        if (!figure.measure) {
            outcome = score_of(figure, crumb);
            continue;
        }
        const auto truth = crumb.truth.find(*figure.measure);
        // As a band of the profile that holds no crumb: nobody can tell.
        const bool known = truth != crumb.truth.end() &&
                           (figure.kind != FigureKind::relative || truth->second > 0);
        if (!known)
            outcome = {};
        else if (const auto value = found.values.find(*figure.measure); value != found.values.end())
            outcome = outcome_of(figure, truth->second, value->second);
    }
}

void judge_yardsticks(const TrueSlice& truth, const SliceReading& found,
                      const analysis::SliceMaps& maps, SliceComparison& result) {
    const std::vector<std::uint8_t> face = true_face(truth, maps);
    analysis::SliceMaps theirs = maps;
    for (std::size_t k = 0; k < yardsticks.size(); ++k) {
        theirs.cells.labels = cells_by(yardsticks[k], maps.photo, face, maps.mm_per_pixel->count());
        for (std::size_t i = 0; i < theirs.cells.labels.size(); ++i)
            if (!maps.crumb.labels[i]) theirs.cells.labels[i] = 0;
        for (std::size_t i = 0; i < figure_count; ++i)
            result.beside[k][i].asked = figures[i].of_crumb && result.outcomes[i].asked;
        judge_crumb(truth, reading_of(theirs.cells.labels, found, theirs), theirs,
                    result.beside[k]);
        for (Outcome& outcome : result.beside[k])
            outcome.covered.reset(), outcome.half_width = 0;
    }
}

}  // namespace loafmark::accuracy
