#include "compare.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>

namespace loafmark::accuracy {
namespace {

using Matrix = Homography;

Matrix product(const Matrix& a, const Matrix& b) {
    Matrix c{};
    for (std::size_t i = 0; i < 3; ++i)
        for (std::size_t j = 0; j < 3; ++j)
            for (std::size_t k = 0; k < 3; ++k)
                c[i][j] += a[i][k] * b[k][j];
    return c;
}

// The adjugate: the inverse up to scale, which is all that a homography needs.
Matrix inverse(const Matrix& m) {
    Matrix r{};
    for (std::size_t i = 0; i < 3; ++i)
        for (std::size_t j = 0; j < 3; ++j) {
            const std::size_t a = (j + 1) % 3, b = (j + 2) % 3, c = (i + 1) % 3, d = (i + 2) % 3;
            r[i][j] = m[a][c] * m[b][d] - m[a][d] * m[b][c];
        }
    return r;
}

PlanePoint mapped(const Matrix& m, double x, double y) {
    const double w = m[2][0] * x + m[2][1] * y + m[2][2];
    return {(m[0][0] * x + m[0][1] * y + m[0][2]) / w, (m[1][0] * x + m[1][1] * y + m[1][2]) / w};
}

// The truth seen in the analysis' own frame, pixel for pixel.
struct TruthInFrame {
    std::vector<std::uint16_t> cells;
    std::vector<bool> inside;  // the true outline
};

// Even-odd rule along one row.
std::vector<double> crossings(const std::vector<PlanePoint>& polygon, double y) {
    std::vector<double> xs;
    for (std::size_t i = 0; i < polygon.size(); ++i) {
        const PlanePoint& a = polygon[i];
        const PlanePoint& b = polygon[(i + 1) % polygon.size()];
        if ((a.y <= y) != (b.y <= y)) xs.push_back(a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x));
    }
    std::sort(xs.begin(), xs.end());
    return xs;
}

TruthInFrame in_frame(const Truth& truth, const analysis::SliceMaps& maps) {
    const int width = maps.cells.width, height = maps.cells.height;
    const Matrix slice_from_frame = product(inverse(truth.photo_from_slice), maps.photo_from_frame);
    const Matrix frame_from_slice = inverse(slice_from_frame);
    TruthInFrame seen;
    seen.cells.assign(maps.cells.labels.size(), 0);
    seen.inside.assign(maps.cells.labels.size(), false);
    std::vector<PlanePoint> outline;
    for (const PlanePoint& p : truth.outline)
        outline.push_back(mapped(frame_from_slice, p.x, p.y));
    for (int y = 0; y < height; ++y) {
        const std::vector<double> xs = crossings(outline, y);
        for (std::size_t k = 0; k + 1 < xs.size(); k += 2)
            for (int x = std::max(0, static_cast<int>(std::ceil(xs[k])));
                 x < std::min<double>(width, xs[k + 1]); ++x)
                seen.inside[static_cast<std::size_t>(y) * width + x] = true;
        for (int x = 0; x < width; ++x) {
            const PlanePoint mm = mapped(slice_from_frame, x, y);
            const auto u = std::lround((mm.x - truth.first_pixel.x) / truth.mm_per_pixel);
            const auto v = std::lround((mm.y - truth.first_pixel.y) / truth.mm_per_pixel);
            if (u < 0 || v < 0 || u >= truth.cells.width || v >= truth.cells.height) continue;
            seen.cells[static_cast<std::size_t>(y) * width + x] =
                truth.cells.labels[static_cast<std::size_t>(v) * truth.cells.width + u];
        }
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

double iou(const TruthInFrame& truth, const LabelMap& slice) {
    double both = 0, either = 0;
    for (std::size_t i = 0; i < slice.labels.size(); ++i) {
        const bool found = slice.labels[i] != 0;
        both += truth.inside[i] && found;
        either += truth.inside[i] || found;
    }
    return either > 0 ? both / either : 0;
}

double relative(double measured, double truth) {
    return measured / truth - 1;
}

}  // namespace

analysis::MeasureOptions typed_options(const Truth& truth) {
    analysis::MeasureOptions options;
    if (truth.thickness) options.thickness = {*truth.thickness};
    options.label_map = true;
    return options;
}

Comparison compare(const Truth& truth, const analysis::Measurement& measured) {
    Comparison result;
    result.photo = truth.photo.filename().string();
    const auto& slices = measured.reading.slices;
    if (slices.size() != 1) {
        result.failure = std::to_string(slices.size()) + " slices found";
        return result;
    }
    const MeasureValues& values = slices.front().values;
    for (const Measure needed : {Measure::loaf_height, Measure::openness, Measure::coarseness})
        if (!values.contains(needed)) {
            result.failure = "no " + std::string(info_of(needed).name);
            return result;
        }
    const analysis::SliceMaps& maps = measured.maps.front();
    const TruthInFrame seen = in_frame(truth, maps);
    const double mm = maps.mm_per_pixel->count();
    const double limit = values.at(Measure::resolved_limit).value;
    const CrumbFigures crumb = crumb_figures(seen.cells, maps.crumb, mm, limit);
    if (crumb.diameters.empty()) {
        result.failure = "no true cells in the crumb found";
        return result;
    }
    result.height = relative(values.at(Measure::loaf_height).value, truth.height_mm);
    result.width = relative(values.at(Measure::loaf_width).value, truth.width_mm);
    result.area = relative(values.at(Measure::cross_section_area).value, truth.area_mm2);
    result.outline_iou = iou(seen, maps.slice);
    result.openness = values.at(Measure::openness).value - crumb.openness;
    result.cells_per_cm2 = relative(values.at(Measure::cells_per_cm2).value, crumb.per_cm2);
    result.coarseness = relative(values.at(Measure::coarseness).value, crumb.coarseness);
    result.cell_f1 = cell_f1(seen.cells, maps.cells.labels, maps.crumb, mm);
    std::vector<double> found;
    for (const Cell& cell : slices.front().cells)
        if (cell.counted) found.push_back(cell.equivalent_diameter);
    result.size_distance = size_distance(crumb.diameters, found);
    result.true_openness = crumb.openness;
    result.true_coarseness_mm = crumb.coarseness;
    const std::array<std::pair<Measure, double>, 6> judged = {
        {{Measure::loaf_height, truth.height_mm},
         {Measure::loaf_width, truth.width_mm},
         {Measure::cross_section_area, truth.area_mm2},
         {Measure::openness, crumb.openness},
         {Measure::cells_per_cm2, crumb.per_cm2},
         {Measure::coarseness, crumb.coarseness}}};
    for (const auto& [measure, true_value] : judged) {
        const Estimate& e = values.at(measure);
        result.covered.push_back(e.low <= true_value && true_value <= e.high);
    }
    return result;
}

}  // namespace loafmark::accuracy
