#include "crumb_figures.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "plane.h"
#include "true_crumb.h"

namespace loafmark::accuracy {
namespace {

// The true cells seen in the analysis' own frame, pixel for pixel.
std::vector<std::uint16_t> cells_in_frame(const CellTruth& truth,
                                          const Homography& photo_from_slice,
                                          const analysis::SliceMaps& maps) {
    const int width = maps.cells.width, height = maps.cells.height;
    const Homography slice_from_frame = product(inverse(photo_from_slice), maps.photo_from_frame);
    std::vector<std::uint16_t> seen(maps.cells.labels.size(), 0);
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x) {
            const PlanePoint mm = mapped(slice_from_frame, x, y);
            const auto u = std::lround((mm.x - truth.first_pixel.x) / truth.mm_per_pixel);
            const auto v = std::lround((mm.y - truth.first_pixel.y) / truth.mm_per_pixel);
            if (u < 0 || v < 0 || u >= truth.cells.width || v >= truth.cells.height) continue;
            seen[static_cast<std::size_t>(y) * width + x] =
                truth.cells.labels[static_cast<std::size_t>(v) * truth.cells.width + u];
        }
    return seen;
}

// 1-Wasserstein distance between the area-weighted distributions of ln x: the area between their
// cumulative curves. Both sorted, not empty.
double size_distance(const std::vector<double>& a, const std::vector<double>& b) {
    std::map<double, std::array<double, 2>> steps;
    const auto add = [&](const std::vector<double>& xs, std::size_t which) {
        double total = 0;
        for (const double x : xs)
            total += x * x;
        for (const double x : xs)
            steps[std::log(x)][which] += x * x / total;
    };
    add(a, 0);
    add(b, 1);
    double distance = 0, fa = 0, fb = 0, before = steps.begin()->first;
    for (const auto& [x, step] : steps) {
        distance += std::abs(fa - fb) * (x - before);
        fa += step[0], fb += step[1];
        before = x;
    }
    return distance;
}

double cell_f1(const std::vector<std::uint16_t>& truth, const std::vector<std::uint16_t>& found,
               const LabelMap& crumb, double mm_per_pixel) {
    const std::vector<Blob> true_blobs = blobs_of(truth, crumb.width);
    const std::vector<Blob> found_blobs = blobs_of(found, crumb.width);
    std::map<std::pair<int, int>, double> overlap;
    for (std::size_t i = 0; i < truth.size(); ++i)
        if (truth[i] && found[i]) overlap[{truth[i], found[i]}] += 1;
    const auto judged = [&](const Blob& blob) {
        return centred_in(blob, crumb) && diameter_of(blob, mm_per_pixel) >= 1;
    };
    const auto n_true = std::count_if(true_blobs.begin(), true_blobs.end(), judged);
    const auto n_found = std::count_if(found_blobs.begin(), found_blobs.end(), judged);
    // A cell near 1 mm may be judged on one side only; a match counts when either side is.
    double matched_true = 0, matched_found = 0;
    for (const auto& [pair, pixels] : overlap) {
        const Blob& t = true_blobs[static_cast<std::size_t>(pair.first - 1)];
        const Blob& f = found_blobs[static_cast<std::size_t>(pair.second - 1)];
        if (pixels / (t.pixels + f.pixels - pixels) < 0.5) continue;
        if (judged(t)) matched_true += 1;
        if (judged(f)) matched_found += 1;
    }
    if (n_true == 0 || n_found == 0) return n_true == n_found ? 1 : 0;
    const double recall = matched_true / static_cast<double>(n_true);
    const double precision = matched_found / static_cast<double>(n_found);
    return recall + precision > 0 ? 2 * recall * precision / (recall + precision) : 0;
}

std::optional<double> specks_covered(const std::vector<std::uint16_t>& specks,
                                     const SliceReading& found, const analysis::SliceMaps& maps) {
    std::vector<bool> counted(found.cells.size() + 1, false);
    for (const Cell& cell : found.cells)
        if (static_cast<std::size_t>(cell.id) < counted.size())
            counted[static_cast<std::size_t>(cell.id)] = cell.counted;
    std::map<std::uint16_t, std::array<double, 2>> covered;  // pixels in all, in cells
    for (std::size_t i = 0; i < specks.size(); ++i) {
        if (!specks[i] || !maps.crumb.labels[i]) continue;
        auto& pixels = covered[specks[i]];
        pixels[0] += 1, pixels[1] += counted[maps.cells.labels[i]] ? 1 : 0;
    }
    if (covered.empty()) return std::nullopt;
    const auto n = std::count_if(covered.begin(), covered.end(), [](const auto& speck) {
        return 2 * speck.second[1] > speck.second[0];
    });
    return static_cast<double>(n) / static_cast<double>(covered.size());
}

// Outside what the photo shows nothing was to be found.
void keep_shown(std::vector<std::uint16_t>& labels, const LabelMap& slice) {
    for (std::size_t i = 0; i < labels.size(); ++i)
        if (!slice.labels[i]) labels[i] = 0;
}

}  // namespace

std::vector<std::uint16_t> true_cells_in(const TrueSlice& truth, const analysis::SliceMaps& maps) {
    std::vector<std::uint16_t> seen = cells_in_frame(*truth.cells, truth.photo_from_slice, maps);
    if (truth.outline.empty()) keep_shown(seen, maps.crumb);
    return seen;
}

std::optional<CrumbComparison> compare_crumb(const TrueSlice& truth, const SliceReading& found,
                                             const analysis::SliceMaps& maps) {
    const bool crumb_only = truth.outline.empty();
    const std::vector<std::uint16_t> seen = true_cells_in(truth, maps);
    // Of crumb alone, cells that the frame cuts are counted by where their middles truly lie.
    const std::vector<Blob> whole =
        crumb_only
            ? blobs_of(cells_in_frame(*truth.cells, truth.photo_from_slice, maps), maps.cells.width)
            : std::vector<Blob>();
    const double mm = maps.mm_per_pixel->count();
    const double limit = found.values.at(Measure::resolved_limit).value;
    CrumbPlace place{seen, maps.crumb, mm, limit, {}, {}, 0};
    const Homography frame_from_photo = inverse(maps.photo_from_frame);
    place.base_left = mapped(frame_from_photo, found.base_line[0].x, found.base_line[0].y);
    place.base_right = mapped(frame_from_photo, found.base_line[1].x, found.base_line[1].y);
    if (const auto height = found.values.find(Measure::loaf_height); height != found.values.end())
        place.height_mm = height->second.value;
    CrumbTruth crumb = crumb_truth(place);
    std::vector<double> diameters;
    for (const Cell& cell : found.cells)
        if (cell.counted) diameters.push_back(cell.equivalent_diameter);
    if (crumb_only) {
        const auto count = std::count_if(whole.begin(), whole.end(), [&](const Blob& blob) {
            return centred_in(blob, maps.crumb) && diameter_of(blob, mm) >= limit;
        });
        const auto pixels = std::count_if(maps.crumb.labels.begin(), maps.crumb.labels.end(),
                                          [](std::uint16_t in) { return in != 0; });
        crumb.measures[Measure::cells_per_cm2] =
            100 * static_cast<double>(count) / (static_cast<double>(pixels) * mm * mm);
    }
    if (crumb.diameters.empty() || diameters.empty()) return std::nullopt;
    std::sort(diameters.begin(), diameters.end());
    CrumbComparison result;
    result.truth = std::move(crumb.measures);
    result.cell_f1 = cell_f1(seen, maps.cells.labels, maps.crumb, mm);
    result.size_distance = size_distance(crumb.diameters, diameters);
    if (truth.specks)
        result.specks_covered = specks_covered(
            cells_in_frame(*truth.specks, truth.photo_from_slice, maps), found, maps);
    return result;
}

}  // namespace loafmark::accuracy
