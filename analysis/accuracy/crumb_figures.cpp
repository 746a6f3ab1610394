#include "crumb_figures.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>

#include "plane.h"

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

struct Blob {
    double pixels = 0, x = 0, y = 0;
};

std::vector<Blob> blobs_of(const std::vector<std::uint16_t>& labels, int width) {
    std::vector<Blob> blobs;
    for (std::size_t i = 0; i < labels.size(); ++i) {
        if (labels[i] == 0) continue;
        if (labels[i] > blobs.size()) blobs.resize(labels[i]);
        Blob& blob = blobs[labels[i] - 1u];
        blob.pixels += 1;
        blob.x += static_cast<double>(i % static_cast<std::size_t>(width));
        blob.y += static_cast<double>(i / static_cast<std::size_t>(width));
    }
    for (Blob& blob : blobs)
        if (blob.pixels > 0) blob.x /= blob.pixels, blob.y /= blob.pixels;
    return blobs;
}

double diameter_of(const Blob& blob, double mm_per_pixel) {
    return std::sqrt(4 * blob.pixels / std::numbers::pi) * mm_per_pixel;
}

// Crumb figures by plain counting, for truth and analysis alike.
struct CrumbFigures {
    double openness = 0, per_cm2 = 0, coarseness = 0;
    std::vector<double> diameters;
};

CrumbFigures crumb_figures(const std::vector<std::uint16_t>& labels, const LabelMap& crumb,
                           double mm_per_pixel, double limit) {
    const std::vector<Blob> blobs = blobs_of(labels, crumb.width);
    CrumbFigures figures;
    double crumb_pixels = 0, open = 0, count = 0;
    for (std::size_t i = 0; i < labels.size(); ++i) {
        if (!crumb.labels[i]) continue;
        crumb_pixels += 1;
        if (labels[i] && diameter_of(blobs[labels[i] - 1u], mm_per_pixel) >= limit) open += 1;
    }
    for (const Blob& blob : blobs) {
        if (blob.pixels == 0 || diameter_of(blob, mm_per_pixel) < limit) continue;
        const auto at =
            static_cast<std::size_t>(std::lround(blob.y)) * static_cast<std::size_t>(crumb.width) +
            static_cast<std::size_t>(std::lround(blob.x));
        if (!crumb.labels[at]) continue;
        count += 1;
        figures.diameters.push_back(diameter_of(blob, mm_per_pixel));
    }
    figures.openness = open / std::max(1.0, crumb_pixels);
    figures.per_cm2 = 100 * count / std::max(1.0, crumb_pixels * mm_per_pixel * mm_per_pixel);
    std::sort(figures.diameters.begin(), figures.diameters.end());
    double total = 0, held = 0;
    for (const double x : figures.diameters)
        total += x * x;
    for (const double x : figures.diameters) {
        held += x * x;
        if (held >= total / 2) {
            figures.coarseness = x;
            break;
        }
    }
    return figures;
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
        if (blob.pixels == 0 || diameter_of(blob, mm_per_pixel) < 1) return false;
        return crumb.labels[static_cast<std::size_t>(std::lround(blob.y)) * crumb.width +
                            static_cast<std::size_t>(std::lround(blob.x))] != 0;
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

}  // namespace

std::optional<CrumbComparison> compare_crumb(const TrueSlice& truth, const SliceReading& found,
                                             const analysis::SliceMaps& maps) {
    const std::vector<std::uint16_t> seen =
        cells_in_frame(*truth.cells, truth.photo_from_slice, maps);
    const double mm = maps.mm_per_pixel->count();
    const double limit = found.values.at(Measure::resolved_limit).value;
    const CrumbFigures crumb = crumb_figures(seen, maps.crumb, mm, limit);
    std::vector<double> diameters;
    for (const Cell& cell : found.cells)
        if (cell.counted) diameters.push_back(cell.equivalent_diameter);
    if (crumb.diameters.empty() || diameters.empty()) return std::nullopt;
    std::sort(diameters.begin(), diameters.end());
    CrumbComparison result;
    result.truth = {{Measure::openness, crumb.openness},
                    {Measure::cells_per_cm2, crumb.per_cm2},
                    {Measure::coarseness, crumb.coarseness}};
    result.cell_f1 = cell_f1(seen, maps.cells.labels, maps.crumb, mm);
    result.size_distance = size_distance(crumb.diameters, diameters);
    return result;
}

}  // namespace loafmark::accuracy
