#include "true_crumb.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "true_lines.h"

namespace loafmark::accuracy {
namespace {

constexpr double cavity_mm = 10;

// Along the base line from its middle and up from it, mm.
class Axes {
  public:
    explicit Axes(const CrumbPlace& place) : mm_(place.mm_per_pixel) {
        const double dx = place.base_right.x - place.base_left.x,
                     dy = place.base_right.y - place.base_left.y, length = std::hypot(dx, dy);
        along_ = {dx / length, dy / length};
        middle_ = {(place.base_left.x + place.base_right.x) / 2,
                   (place.base_left.y + place.base_right.y) / 2};
    }
    [[nodiscard]] double aside(double x, double y) const {
        return ((x - middle_.x) * along_.x + (y - middle_.y) * along_.y) * mm_;
    }
    [[nodiscard]] double above(double x, double y) const {
        return ((x - middle_.x) * along_.y - (y - middle_.y) * along_.x) * mm_;
    }
    [[nodiscard]] PlanePoint along() const { return along_; }

  private:
    double mm_;
    PlanePoint along_, middle_;
};

struct Share {
    double crumb = 0, open = 0;
    [[nodiscard]] double openness() const { return open / crumb; }
};

double by_area(const std::vector<double>& sorted, double q) {
    double total = 0, held = 0;
    for (const double x : sorted)
        total += x * x;
    for (const double x : sorted) {
        held += x * x;
        if (held >= q * total * (1 - 1e-12)) return x;
    }
    return sorted.back();
}

void add_shapes(const CrumbPlace& place, const Axes& axes, const std::vector<Blob>& counted,
                CrumbTruth& truth) {
    double area = 0, ratios = 0, long_area = 0, c = 0, s = 0;
    const PlanePoint a = axes.along(), up{a.y, -a.x};
    for (const Blob& blob : counted) {
        const auto moment = [&](PlanePoint p, PlanePoint q) {
            return p.x * q.x * blob.xx + (p.x * q.y + p.y * q.x) * blob.xy + p.y * q.y * blob.yy;
        };
        const double aa = moment(a, a), uu = moment(up, up), au = moment(a, up);
        const double reach = std::hypot((aa - uu) / 2, au), middle = (aa + uu) / 2;
        const double ratio = std::sqrt((middle + reach) / (middle - reach));
        area += blob.pixels, ratios += blob.pixels * ratio;
        if (ratio < 1.1) continue;
        long_area += blob.pixels;
        c += blob.pixels * (aa - uu) / 2 / reach, s += blob.pixels * au / reach;
    }
    if (area <= 0) return;
    truth.measures[Measure::cell_axis_ratio] = ratios / area;
    if (long_area > 0)
        truth.measures[Measure::cell_direction_strength] = std::hypot(c, s) / long_area;
    (void)place;
}

// Openness of tiles and bands; `open[i]`: the pixel lies in a cell that counts.
void add_places(const CrumbPlace& place, const Axes& axes, const std::vector<std::uint8_t>& open,
                double side, CrumbTruth& truth) {
    std::map<std::pair<int, int>, Share> tiles;
    std::array<Share, 10> bands;
    std::map<int, Share> layers;
    for (std::size_t i = 0; i < open.size(); ++i) {
        if (!place.crumb.labels[i]) continue;
        const auto x = static_cast<double>(i % static_cast<std::size_t>(place.crumb.width));
        const auto y = static_cast<double>(i / static_cast<std::size_t>(place.crumb.width));
        const double aside = axes.aside(x, y), above = axes.above(x, y);
        std::vector<Share*> shares = {&tiles[{static_cast<int>(std::floor(aside / side)),
                                              static_cast<int>(std::floor(above / side))}]};
        if (place.height_mm > 0) {
            shares.push_back(&bands[static_cast<std::size_t>(
                std::clamp(std::floor(10 * above / place.height_mm), 0.0, 9.0))]);
            shares.push_back(&layers[std::max(0, static_cast<int>(std::floor(above)))]);
        }
        for (Share* share : shares)
            share->crumb += 1, share->open += open[i];
    }
    std::vector<double> openness;
    const double whole = std::pow(side / place.mm_per_pixel, 2);
    for (const auto& [at, tile] : tiles)
        if (tile.crumb >= 0.75 * whole) openness.push_back(tile.openness());
    double mean = 0, squares = 0;
    for (const double o : openness)
        mean += o / static_cast<double>(openness.size());
    for (const double o : openness)
        squares += (o - mean) * (o - mean);
    if (openness.size() >= 4 && mean > 0)
        truth.measures[Measure::unevenness] =
            std::sqrt(squares / static_cast<double>(openness.size() - 1)) / mean;
    if (place.height_mm <= 0) return;
    for (std::size_t b = 0; b < bands.size(); ++b)
        if (bands[b].crumb > 0)
            truth.measures[static_cast<Measure>(static_cast<int>(Measure::openness_profile_1) +
                                                static_cast<int>(b))] = bands[b].openness();
    double widest = 0;
    for (const auto& [at, layer] : layers)
        widest = std::max(widest, layer.crumb);
    std::vector<double> rows;
    for (const auto& [at, layer] : layers)
        if (layer.crumb >= 0.1 * widest) rows.push_back(layer.openness());
    if (rows.empty()) return;
    std::vector<double> sorted = rows;
    std::sort(sorted.begin(), sorted.end());
    const double usual = sorted[(sorted.size() - 1) / 2];
    double dense = 0;
    while (dense < static_cast<double>(rows.size()) &&
           rows[static_cast<std::size_t>(dense)] < usual / 2)
        dense += 1;
    truth.measures[Measure::dense_base] = dense;
}

}  // namespace

std::vector<Blob> blobs_of(const std::vector<std::uint16_t>& labels, int width) {
    std::vector<Blob> blobs;
    const auto each = [&](const auto& take) {
        for (std::size_t i = 0; i < labels.size(); ++i)
            if (labels[i] != 0)
                take(labels[i] - 1u, static_cast<double>(i % static_cast<std::size_t>(width)),
                     static_cast<double>(i / static_cast<std::size_t>(width)));
    };
    each([&](std::size_t k, double x, double y) {
        if (k >= blobs.size()) blobs.resize(k + 1);
        blobs[k].pixels += 1, blobs[k].x += x, blobs[k].y += y;
    });
    for (Blob& blob : blobs)
        if (blob.pixels > 0) blob.x /= blob.pixels, blob.y /= blob.pixels;
    each([&](std::size_t k, double x, double y) {
        Blob& b = blobs[k];
        b.xx += (x - b.x) * (x - b.x) / b.pixels, b.yy += (y - b.y) * (y - b.y) / b.pixels;
        b.xy += (x - b.x) * (y - b.y) / b.pixels;
    });
    for (Blob& blob : blobs)
        blob.xx += 1.0 / 12, blob.yy += 1.0 / 12;  // a pixel is no point
    return blobs;
}

double diameter_of(const Blob& blob, double mm_per_pixel) {
    return std::sqrt(4 * blob.pixels / std::numbers::pi) * mm_per_pixel;
}

bool centred_in(const Blob& blob, const LabelMap& crumb) {
    return blob.pixels > 0 && crumb.labels[static_cast<std::size_t>(std::lround(blob.y)) *
                                               static_cast<std::size_t>(crumb.width) +
                                           static_cast<std::size_t>(std::lround(blob.x))] != 0;
}

CrumbTruth crumb_truth(const CrumbPlace& place) {
    const std::vector<Blob> blobs = blobs_of(place.labels, place.crumb.width);
    const Axes axes(place);
    CrumbTruth truth;
    std::vector<Blob> counted;
    for (const Blob& blob : blobs)
        if (centred_in(blob, place.crumb) &&
            diameter_of(blob, place.mm_per_pixel) >= place.limit_mm)
            counted.push_back(blob);
    std::vector<std::uint8_t> open(place.labels.size(), 0);
    double crumb = 0, area = 0, cavities = 0;
    for (std::size_t i = 0; i < open.size(); ++i) {
        if (!place.crumb.labels[i]) continue;
        crumb += 1;
        if (!place.labels[i]) continue;
        const double x = diameter_of(blobs[place.labels[i] - 1u], place.mm_per_pixel);
        open[i] = x >= place.limit_mm;
        area += open[i], cavities += x >= cavity_mm && open[i] ? 1 : 0;
    }
    if (crumb <= 0) return truth;
    truth.measures[Measure::openness] = area / crumb;
    truth.measures[Measure::large_cavity_share] = cavities / crumb;
    if (cavities < crumb)
        truth.measures[Measure::openness_fine] = (area - cavities) / (crumb - cavities);
    truth.measures[Measure::cells_per_cm2] = 100 * static_cast<double>(counted.size()) /
                                             (crumb * place.mm_per_pixel * place.mm_per_pixel);
    for (const Blob& blob : counted)
        truth.diameters.push_back(diameter_of(blob, place.mm_per_pixel));
    std::sort(truth.diameters.begin(), truth.diameters.end());
    double side = 10;
    if (!truth.diameters.empty()) {
        const double d10 = by_area(truth.diameters, 0.1), d50 = by_area(truth.diameters, 0.5),
                     d90 = by_area(truth.diameters, 0.9);
        truth.measures[Measure::coarseness] = d50;
        truth.measures[Measure::relative_span] = (d90 - d10) / d50;
        side = std::max(side, 3 * d50);
    }
    if (const auto path = mean_free_path({place.crumb, place.labels, open, place.mm_per_pixel}))
        truth.measures[Measure::mean_free_path] = *path;
    add_shapes(place, axes, counted, truth);
    add_places(place, axes, open, side, truth);
    return truth;
}

}  // namespace loafmark::accuracy
